// What `sheaf explain` says cannot grow stale: each example stands in a golden
// that brings the message about, and mended it does so no longer.

#include <gtest/gtest.h>

#include <utility>

#include "base/diagnostic_names.h"
#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

// A row of src/data/messages.tsv, read here by other means than the program's.
struct Row {
  std::string name, golden, wrong, mended, text;
};

std::string unescaped(std::string text) {
  const auto replace_all = [&](const std::string& from, const std::string& to) {
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos;
         at += to.size()) {
      text.replace(at, from.size(), to);
    }
  };
  replace_all("\\n", "\n");
  replace_all("\\t", "\t");
  replace_all("\\x01", "\x01");
  replace_all("\\xE9", "\xE9");
  return text;
}

const std::vector<Row>& rows() {
  static const std::vector<Row> all = [] {
    std::vector<Row> made;
    std::istringstream lines(read(project() / "src/data/messages.tsv"));
    bool head = true;
    for (std::string line; std::getline(lines, line);) {
      if (line.starts_with('#')) continue;
      if (std::exchange(head, false)) continue;
      std::vector<std::string> cells;
      for (std::size_t at = 0; at <= line.size();) {
        const std::size_t end = std::min(line.find('\t', at), line.size());
        cells.push_back(line.substr(at, end - at));
        at = end + 1;
      }
      cells.resize(5);
      made.push_back({cells[0], cells[1], unescaped(cells[2]),
                      unescaped(cells[3]), cells[4]});
    }
    return made;
  }();
  return all;
}

std::string line_with(const std::string& text, const std::string& start) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with(start)) return line.substr(start.size());
  }
  return {};
}

int times(const std::string& text, const std::string& part) {
  int count = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos;
       at += part.size()) {
    ++count;
  }
  return count;
}

// How many messages of a name are said again, wherever they stand now.
int still_there(const std::string& before, const std::string& after,
                const std::string& name) {
  int count = 0;
  std::istringstream lines(before);
  for (std::string line; std::getline(lines, line);) {
    if (!line.ends_with(name)) continue;
    count += after.find(line.substr(line.find(' '))) != std::string::npos;
  }
  return count;
}

TEST(Explain, KnowsEveryMessageInTheOrderOfTheList) {
  const auto names = diagnostic_names();
  ASSERT_EQ(rows().size(), names.size());
  for (std::size_t i = 0; i < names.size(); ++i) {
    EXPECT_EQ(rows()[i].name, names[i].name);
    EXPECT_GT(rows()[i].text.size(), 40U) << rows()[i].name;
    EXPECT_TRUE(rows()[i].text.ends_with('.')) << rows()[i].name;
  }
}

TEST(Explain, ShowsWhatStandsInAGoldenAndMendsIt) {
  const TemporaryFolder folder;
  for (const std::string part : {"golden", "layouts", "lessons"}) {
    fs::copy(project() / "tests" / part, folder.path() + "/" + part,
             fs::copy_options::recursive);
  }
  const fs::path goldens = folder.path() + "/golden";
  for (const Row& row : rows()) {
    SCOPED_TRACE(row.name);
    fs::path path = goldens / (row.golden + ".yaml");
    if (!fs::exists(path)) path.replace_extension(".txt");
    const std::string text = read(path);
    const std::string name = "[" + row.name + "]";
    const std::string expected = read(goldens / (row.golden + ".expected"));
    EXPECT_GT(times(expected, name), 0) << row.golden;
    if (!line_with(text, "# repeat: ").empty()) {
      const std::size_t last = text.rfind('\n', text.size() - 2) + 1;
      EXPECT_TRUE(
          row.wrong.starts_with(text.substr(last, text.size() - last - 1)));
      continue;
    }
    const std::size_t at = text.rfind(row.wrong);
    ASSERT_NE(at, std::string::npos) << row.wrong;
    EXPECT_GT(at, text.find("# run: ")) << "not in the file's remarks";
    std::string mended = text;
    mended.replace(at, row.wrong.size(), row.mended);
    std::ofstream(path, std::ios::binary) << mended;
    std::string call = line_with(text, "# run: ");
    call.replace(call.find("FILE"), 4, path.filename().string());
    const Outcome o = run_program(
        {"sh", "-c",
         "cd '" + goldens.string() + "' && '" SHEAF_PROGRAM "' " + call});
    // A note about several words may be there still for the others.
    EXPECT_LT(still_there(expected, o.out, name), times(expected, name))
        << o.out;
    EXPECT_LE(times(o.out, name), times(expected, name)) << o.out;
    std::ofstream(path, std::ios::binary) << text;
  }
}

TEST(Explain, PrintsAParagraphAndTheExample) {
  const Outcome o = run_program({SHEAF_PROGRAM, "explain", "unknown-key"});
  EXPECT_EQ(o.status, 0);
  EXPECT_TRUE(
      o.out.starts_with("unknown-key: a key that Sheaf does not know\n"))
      << o.out;
  EXPECT_NE(o.out.find("Wrong:\n    wrods: ship shed\n"
                       "Mended:\n    words: ship shed\n"),
            std::string::npos)
      << o.out;
  EXPECT_EQ(run_program({SHEAF_PROGRAM, "explain", "[unknown-key]"}).out,
            o.out);
  // What cannot be seen is shown.
  EXPECT_NE(run_program({SHEAF_PROGRAM, "explain", "tab-in-indentation"})
                .out.find("    (tab) The ship is here."),
            std::string::npos);
}

TEST(Explain, ListsAllAndTheManualToo) {
  const Outcome list = run_program({SHEAF_PROGRAM, "explain"});
  const Outcome manual = run_program({SHEAF_PROGRAM, "manual"});
  for (const DiagnosticName& name : diagnostic_names()) {
    const std::string meaning(name.meaning);
    EXPECT_NE(list.out.find(std::string(name.name) + " "), std::string::npos);
    EXPECT_NE(list.out.find(meaning + "\n"), std::string::npos) << meaning;
    std::string hyphens;
    for (const char c : name.name)
      hyphens += c == '-' ? "\\-" : std::string(1, c);
    EXPECT_NE(manual.out.find(".B " + hyphens + "\n"), std::string::npos)
        << name.name;
  }
}

TEST(Explain, AsksWhatWasMeant) {
  const Outcome o = run_program({SHEAF_PROGRAM, "explain", "unknwon-key"});
  EXPECT_EQ(o.status, 2);
  EXPECT_NE(o.out.find("there is no message named `unknwon-key`; did you mean "
                       "`unknown-key`"),
            std::string::npos)
      << o.out;
  EXPECT_NE(run_program({SHEAF_PROGRAM, "explain", "zzz"})
                .out.find("`sheaf explain` lists them"),
            std::string::npos);
}

}  // namespace
}  // namespace sheaf::test
