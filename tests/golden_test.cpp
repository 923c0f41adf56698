// Goldens: tests/golden/NAME.yaml is what a teacher could write; its first line
// says what a person should see. A line "# run: ..." says how Sheaf is called
// (FILE stands for the file itself). NAME.expected holds the exit code, the
// messages and the results; of pages the elements and texts in their order.
// Where everything stands on a page is in NAME.geometry. "# repeat: N" stands
// for a file too large to keep: its last line is written N times into a copy.
// SHEAF_UPDATE=1 rewrites what differs, which then counts as a failure once, so
// that nobody mistakes a rewrite for a pass.

#include <gtest/gtest.h>

#include <set>

#include "base/diagnostic_names.h"
#include "golden_files.h"
#include "sheets/sheet.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::TemporaryFolder;

// A copy of the file with its last line many times, if it asks for that.
std::string repeated(const std::string& text, const fs::path& folder,
                     const std::string& name) {
  const std::string times = line_with(text, "# repeat: ");
  if (times.empty()) return name;
  const std::size_t last = text.rfind('\n', text.size() - 2) + 1;
  std::ofstream copy(folder / name, std::ios::binary);
  for (int i = std::stoi(times); i > 0; --i) copy << text.substr(last);
  return (folder / name).string();
}

std::string outcome_of(const fs::path& input) {
  const std::string text = read(input);
  std::string call = line_with(text, "# run: ");
  const std::size_t file = call.find("FILE");
  if (file == std::string::npos) return "no `# run:` line with FILE\n";
  const TemporaryFolder folder;
  const std::string name = input.filename().string();
  call.replace(file, 4, repeated(text, folder.path(), name));
  Outcome o = run(call, folder.path());
  // The copy's folder has another name each time.
  const std::string prefix = folder.path() + "/";
  for (std::size_t at = 0;
       (at = o.messages.find(prefix)) != std::string::npos;) {
    o.messages.erase(at, prefix.size());
  }
  return "exit " + std::to_string(o.exit_code) + "\n---- messages\n" +
         o.messages + "---- results\n" + o.results;
}

// What a dump of pages says and where it stands, apart: a box that is moved
// does not hide a word that has changed.
struct Parts {
  std::string structure, geometry;
};

bool is_mark(std::string_view line) {
  constexpr std::string_view kMarks[] = {"  text ",   "  line ", "  rect ",
                                         "  dot ",    "  ring ", "  path ",
                                         "  picture "};
  return std::ranges::any_of(
      kMarks, [&](std::string_view mark) { return line.starts_with(mark); });
}

Parts parts_of(const std::string& outcome) {
  Parts parts;
  bool on_page = false;
  std::string element;  // whose text is being put together
  std::istringstream lines(outcome);
  for (std::string line; std::getline(lines, line);) {
    const bool page = line.starts_with("page ");
    on_page = on_page || page;
    if (!on_page || !is_mark(line)) {
      if (!element.empty()) parts.structure += "\"\n";
      element.clear();
      parts.structure += line + "\n";
      if (page) parts.geometry += line + "\n";
      continue;
    }
    parts.geometry += line + "\n";
    const std::size_t open = line.find('"');
    const bool text = line.starts_with("  text ");
    if (!text && !line.starts_with("  picture ")) continue;
    const std::size_t owner = line.find_first_of("#-");
    const std::string now = line.substr(0, line.find(' ', owner));
    const std::size_t close = line.rfind('"');
    if (now != element) {
      if (!element.empty()) parts.structure += "\"\n";
      parts.structure += now + " \"";
      element = now;
    } else if (!text) {
      parts.structure += ", ";
    }
    parts.structure += line.substr(open + 1, close - open - 1);
  }
  if (!element.empty()) parts.structure += "\"\n";
  return parts;
}

class Golden : public testing::TestWithParam<fs::path> {};

TEST_P(Golden, ComesOutAsExpected) {
  const fs::path input = GetParam();
  ASSERT_TRUE(read(input).starts_with("# ")) << "say what it shows, line 1";
  const auto [structure, geometry] = parts_of(outcome_of(input));
  fs::path expected = input;
  compare(expected.replace_extension(".expected"), structure);
  compare(expected.replace_extension(".geometry"), geometry);
}

std::string name_of(const testing::TestParamInfo<fs::path>& info) {
  return test_name(info.param.stem().string());
}

INSTANTIATE_TEST_SUITE_P(All, Golden, testing::ValuesIn(golden_inputs()),
                         name_of);

std::string all_expected() {
  std::string text;
  for (const fs::path& file : files_below(goldens(), {".expected"})) {
    text += read(file);
  }
  return text;
}

TEST(Goldens, EveryExpectedFileHasItsInput) {
  std::set<fs::path> names;
  for (const fs::path& input : golden_inputs()) {
    EXPECT_TRUE(names.insert(input.stem()).second) << input << " is two";
  }
  for (const fs::path& file :
       files_below(goldens(), {".expected", ".geometry"})) {
    EXPECT_TRUE(names.contains(file.stem())) << file;
  }
}

TEST(Goldens, ShowEveryKindOfMessage) {
  const std::string text = all_expected();
  for (const DiagnosticName& d : diagnostic_names()) {
    EXPECT_NE(text.find("[" + std::string(d.name) + "]"), std::string::npos)
        << d.name;
  }
}

TEST(Goldens, ShowEveryKindOfSheet) {
  std::string calls;
  for (const fs::path& file : golden_inputs()) {
    calls += line_with(read(file), "# run: ") + " \n";
  }
  for (const SheetKind* kind : sheet_kinds()) {
    EXPECT_NE(calls.find("--only " + std::string(kind->name) + " "),
              std::string::npos)
        << kind->name;
  }
}

// What editors read is what the tables say: `make schemas` after a change.
TEST(Schemas, AreWhatTheProgramPrints) {
  const TemporaryFolder folder;
  for (const char* kind : {"lesson", "layout", "class", "sequence", "record"}) {
    const Outcome now = run(std::string("schema ") + kind, folder.path());
    EXPECT_EQ(now.exit_code, 0);
    const fs::path file = project() / "schemas" / (std::string(kind) + ".json");
    EXPECT_TRUE(now.results == read(file)) << file;
  }
}

// The line that lets editors complete and check: "" where there is none.
fs::path schema_named_in(const fs::path& file) {
  const std::string name =
      line_with(read(file), "# yaml-language-server: $schema=");
  return name.empty() ? fs::path() : file.parent_path() / name;
}

TEST(Schemas, AreNamedInEveryDemoFile) {
  int seen = 0;
  for (const char* folder : {"lessons", "layouts"}) {
    for (const fs::path& file : files_below(project() / folder, {".yaml"})) {
      const std::string name = file.stem().string();
      const bool is_record = file.parent_path().string().ends_with("records");
      const std::string kind = std::string(folder) == "layouts" ? "layout"
                               : is_record                      ? "record"
                               : name.ends_with("class")        ? "class"
                               : name.ends_with("sequence")     ? "sequence"
                                                                : "lesson";
      EXPECT_TRUE(fs::equivalent(schema_named_in(file),
                                 project() / "schemas" / (kind + ".json")))
          << file;
      ++seen;
    }
  }
  EXPECT_GT(seen, 60);
}

TEST(Schemas, AreNamedInDrafts) {
  const TemporaryFolder folder;
  const fs::path draft = folder.path() + "/oa.yaml";
  ASSERT_EQ(run("draft oa --file " + draft.string(), folder.path()).exit_code,
            0);
  EXPECT_TRUE(
      fs::equivalent(schema_named_in(draft), project() / "schemas/lesson.json"))
      << read(draft);
  // Where a folder above has schemas, those, as seen from the file.
  const fs::path home = folder.path() + "/home";
  fs::create_directories(home / "schemas");
  fs::create_directories(home / "lessons");
  std::ofstream(home / "schemas/lesson.json") << "{}";
  const fs::path near = home / "lessons/oa.yaml";
  run("draft oa --file " + near.string(), folder.path());
  EXPECT_NE(read(near).find("$schema=../schemas/lesson.json"),
            std::string::npos);
}

}  // namespace
}  // namespace sheaf::test
