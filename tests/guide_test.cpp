// The teacher's guide: what its chapters tell a reader to type works and prints
// what they show, and the pages that are made of them hold together.

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "guide_chapters.h"
#include "project_files.h"
#include "support/pattern.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::Pattern;
using testing_support::run_program;
using testing_support::TemporaryFolder;

const fs::path kGuide = project() / "docs/guide";
constexpr std::uintmax_t kMostBytes = 3 * 1024 * 1024;

std::string joined(const std::vector<std::string>& lines) {
  std::string all;
  for (const std::string& line : lines) all += line + "\n";
  return all;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

// The first group of a pattern wherever it is found in a line.
std::vector<std::string> all_in(const std::string& text,
                                const Pattern& pattern) {
  std::vector<std::string> found;
  for (const std::string& line : lines_of(text)) {
    for (const auto& match : pattern.all_in(line)) found.push_back(match[1]);
  }
  return found;
}

std::string printed_by(const std::vector<std::string>& arguments) {
  std::vector<std::string> call = {SHEAF_PROGRAM};
  call.insert(call.end(), arguments.begin(), arguments.end());
  const Outcome outcome = run_program(call);
  EXPECT_EQ(outcome.status, 0) << outcome.out;
  return outcome.out;
}

std::string as_html(std::string text) {
  const auto replace = [&](char sign, const std::string& name) {
    for (std::size_t at = 0; (at = text.find(sign, at)) != std::string::npos;
         at += name.size()) {
      text.replace(at, 1, name);
    }
  };
  replace('&', "&amp;");
  replace('<', "&lt;");
  replace('>', "&gt;");
  replace('"', "&quot;");
  return text;
}

// ---- the chapters -----------------------------------------------------------

class GuideChapter : public testing::TestWithParam<fs::path> {};

TEST_P(GuideChapter, CanBeFollowed) {
  for (const std::string& fault : follow_chapter(read(GetParam()))) {
    ADD_FAILURE() << GetParam().filename().string() << ", " << fault;
  }
}

// What stands in the text itself, as in `sheaf patterns`, is not run. The verb
// and the options must be there all the same.
TEST_P(GuideChapter, NamesVerbsAndOptionsThatThereAre) {
  static const Pattern verb("`sheaf ([a-z]+)[^`]*`");
  static const Pattern option("`(--[a-z-]+)[^`]*`");
  static const std::string all = [] {
    std::string help = printed_by({"--help"});
    for (const std::string& name :
         all_in(help, Pattern("^  ([a-z]+)  +[a-z]"))) {
      help += printed_by({name, "--help"});
    }
    return help;
  }();
  const std::string text = read(GetParam());
  for (const std::string& name : all_in(text, verb)) {
    EXPECT_NE(all.find("\n  " + name + " "), std::string::npos) << name;
  }
  for (const std::string& name : all_in(text, option)) {
    EXPECT_NE(all.find("  " + name + " "), std::string::npos) << name;
  }
}

// What a box about the browser sets in italics is written there on a button, a
// tab or a field.
TEST_P(GuideChapter, NamesButtonsThatThereAre) {
  const fs::path web = project() / "web/src";
  static const std::string all = [&] {
    std::string text;
    for (const fs::path& file : files_below(web, {".ts"})) text += read(file);
    return text;
  }();
  static const Pattern name("[^*][*]([^*]+)[*](?![*])");
  for (const std::string& line : lines_of(read(GetParam()))) {
    if (!line.starts_with("> ")) continue;
    for (const std::string& label : all_in(line, name)) {
      EXPECT_NE(all.find("'" + label + "'"), std::string::npos) << label;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Guide, GuideChapter,
                         testing::ValuesIn(files_below(kGuide, {".md"})),
                         [](const testing::TestParamInfo<fs::path>& chapter) {
                           std::string name = chapter.param.stem().string();
                           std::ranges::replace(name, '-', '_');
                           return name;
                         });

// ---- whoever follows them sees what is wrong --------------------------------

const std::string kLesson =
    "Save this as `cloud.yaml`:\n\n```yaml cloud.yaml\npattern: ou as in loud\n"
    "words: cloud shout round found\n```\n\n";

TEST(GuideReader, FollowsAGoodChapter) {
  EXPECT_EQ(joined(follow_chapter(
                kLesson + "```sh\nmkdir in\ncp cloud.yaml in\ncd in\n```\n"
                          "```sh\nsheaf check cloud.yaml >seen\nls\n```\n"
                          "```text\n…\nseen\n```\n")),
            "");
}

TEST(GuideReader, StopsAtACommandThatFails) {
  for (const char* command :
       {"sheaf chekc cloud.yaml", "sheaf check clowd.yaml",
        "sheaf check cloud.yaml --colour", "sheaf build clowd.yaml\nls"}) {
    EXPECT_EQ(follow_chapter(kLesson + "```sh\n" + command + "\n```\n").size(),
              1U)
        << command;
  }
}

TEST(GuideReader, StopsAtALessonThatIsWrong) {
  std::string wrong = kLesson;
  wrong.replace(wrong.find("\nwords"), 6, "\nwrods");
  const std::string check = "```sh\nsheaf check cloud.yaml\n```\n";
  EXPECT_EQ(follow_chapter(kLesson + check).size(), 0U);
  EXPECT_EQ(follow_chapter(wrong + check).size(), 1U);
  const std::string fails = "```sh fails\nsheaf check cloud.yaml\n```\n";
  EXPECT_EQ(follow_chapter(wrong + fails).size(), 0U);
  EXPECT_EQ(follow_chapter(kLesson + fails).size(), 1U);
}

TEST(GuideReader, StopsAtWhatIsNotPrinted) {
  const std::string sheets = "```sh\nprintf 'one\\ntwo\\nthree\\n'\n```\n";
  for (const char* shown : {"one\ntwo\nthree\n", "…\nthree\n", "one\n…\n",
                            "…\ntwo\n…\n", "one\n…\nthree\n"}) {
    EXPECT_EQ(joined(follow_chapter(sheets + "```text\n" + shown + "```\n")),
              "")
        << shown;
  }
  for (const char* shown :
       {"one\ntwo\n", "one\nthree\n", "…\ntwo\n", "two\n…\n", "…\nfour\n…\n"}) {
    EXPECT_EQ(follow_chapter(sheets + "```text\n" + shown + "```\n").size(), 1U)
        << shown;
  }
}

TEST(GuideReader, StopsAtABlockThatNobodyTries) {
  EXPECT_EQ(follow_chapter("```\nsheaf check\n```\n").size(), 1U);
  EXPECT_EQ(follow_chapter("```bash\nsheaf check\n```\n").size(), 1U);
  EXPECT_EQ(follow_chapter("```text\nout\n```\n").size(), 1U);
  EXPECT_EQ(follow_chapter("```yaml cloud.yaml\npattern: oi\n```\n").size(), 1U)
      << "a file whose name the text does not say";
}

// ---- the pages --------------------------------------------------------------

class GuidePages : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    folder_ = new TemporaryFolder;
    const Outcome made = run_program(
        {"sh", "-c", "cd \"$0\" && SHEAF=$1 sh tools/guide.sh \"$2\"",
         project().string(), SHEAF_PROGRAM, folder_->path() + "/guide"});
    ASSERT_EQ(made.status, 0) << made.out;
    for (const fs::path& page : files_below(made_in(), {".html"})) {
      pages_[page.filename()] = read(page);
    }
  }

  static void TearDownTestSuite() {
    pages_.clear();
    delete folder_;
    folder_ = nullptr;
  }

  static fs::path made_in() { return folder_->path() + "/guide"; }

  static std::set<std::string> ids(const std::string& page) {
    const auto found = all_in(pages_[page], Pattern("<[^>]* id=\"([^\"]*)\""));
    const std::set<std::string> names(found.begin(), found.end());
    EXPECT_EQ(names.size(), found.size()) << page << ": two of one name";
    return names;
  }

  // Rows of tables of which the first cell begins so.
  static int rows_of(const std::string& start, const std::string& page) {
    const std::string row =
        "<tr role=\"row\">\n<td role=\"cell\"><code>" + start;
    int rows = 0;
    for (std::size_t at = 0; (at = page.find(row, at)) != std::string::npos;
         at += row.size()) {
      ++rows;
    }
    return rows;
  }

  static inline TemporaryFolder* folder_ = nullptr;
  static inline std::map<std::string, std::string> pages_;
};

TEST_F(GuidePages, AreAllThere) {
  for (const fs::path& chapter : files_below(kGuide, {".md"})) {
    EXPECT_EQ(pages_.count(chapter.stem().string() + ".html"), 1U)
        << chapter << " is not in the list of docs/guide/index.md";
  }
  std::uintmax_t bytes = 0;
  for (const auto& entry : fs::recursive_directory_iterator(made_in())) {
    if (entry.is_regular_file()) bytes += entry.file_size();
  }
  EXPECT_LE(bytes, kMostBytes);
}

TEST_F(GuidePages, ShowEverySheetWithItsOptions) {
  const std::set<std::string> names = ids("sheets.html");
  const std::string& page = pages_["sheets.html"];
  static const Pattern sheet("^  ([a-z-]+): (.*)");
  static const Pattern option("^    ([a-z-]+): ");
  int sheets = 0;
  std::map<std::string, int> options;
  for (const std::string& line : lines_of(printed_by({"sheets"}))) {
    if (const auto found = sheet.in(line); !found.empty()) {
      ++sheets;
      EXPECT_EQ(names.count(found[1]), 1U) << found[1];
      EXPECT_NE(page.find("pictures/" + found[1] + ".png"), std::string::npos)
          << found[1];
      EXPECT_NE(page.find(as_html(found[2].substr(1))), std::string::npos)
          << found[2];
    } else if (const auto row = option.in(line); !row.empty()) {
      ++options[row[1]];
      // What an option is about begins in a column of its own, and stands
      // whole in its cell.
      constexpr std::size_t kColumn = 33;
      ASSERT_GT(line.size(), kColumn);
      EXPECT_EQ(line[kColumn - 1], ' ') << line;
      const std::string about = line.substr(kColumn);
      EXPECT_NE(page.find(as_html(about) + "</td>"), std::string::npos) << line;
    }
  }
  EXPECT_GT(sheets, 30);
  for (const auto& [name, times] : options) {
    EXPECT_EQ(rows_of(name + ": ", page) + rows_of(name + ":</", page), times)
        << name;
  }
}

TEST_F(GuidePages, ShowEveryMessageAsItIsExplained) {
  const std::set<std::string> names = ids("messages.html");
  const std::string& page = pages_["messages.html"];
  const auto messages =
      all_in(printed_by({"explain"}), Pattern("^([a-z0-9-]+) "));
  EXPECT_GT(messages.size(), 80U);
  for (const std::string& name : messages) {
    EXPECT_EQ(names.count(name), 1U) << name;
    for (std::string line : lines_of(printed_by({"explain", name}))) {
      if (line.starts_with(name + ": ")) continue;
      if (line.starts_with("    ")) line.erase(0, 4);
      // Names of keys are set apart, so the text is looked for around them.
      for (std::size_t at = 0; at <= line.size();) {
        const std::size_t end = std::min(line.find('`', at), line.size());
        EXPECT_NE(page.find(as_html(line.substr(at, end - at))),
                  std::string::npos)
            << name << ": " << line;
        at = end + 1;
      }
    }
  }
}

TEST_F(GuidePages, ShowEveryKey) {
  std::map<std::string, int> keys;
  for (const char* kind : {"lesson", "class", "sequence", "record"}) {
    const auto names =
        all_in(printed_by({"schema", kind}),
               Pattern("^    \"([a-z-]+)\": [{]\"description\""));
    EXPECT_GE(names.size(), 5U) << kind;
    for (const std::string& name : names) ++keys[name];
  }
  for (const auto& [name, times] : keys) {
    EXPECT_EQ(rows_of(name + "</", pages_["keys.html"]), times) << name;
  }
}

TEST_F(GuidePages, LeadSomewhere) {
  static const Pattern link("href=\"([^\"]*)\"");
  std::size_t links = 0;
  for (const auto& [name, page] : pages_) {
    for (const std::string& to : all_in(page, link)) {
      ++links;
      const std::size_t hash = to.find('#');
      std::string file = to.substr(0, hash);
      if (file.empty()) file = name;
      if (file == "guide.css") continue;
      ASSERT_EQ(pages_.count(file), 1U) << name << ": " << to;
      if (hash == std::string::npos) continue;
      EXPECT_EQ(ids(file).count(to.substr(hash + 1)), 1U) << name << ": " << to;
    }
  }
  EXPECT_GT(links, 150U);
}

TEST_F(GuidePages, AskForNothingFromElsewhere) {
  const std::string css = read(made_in() / "guide.css");
  for (const char* word : {"http:", "https:", "//", "@import", "url("}) {
    EXPECT_EQ(css.find(word), std::string::npos) << word;
  }
  for (const auto& [name, page] : pages_) {
    for (const char* word :
         {"<script", "<iframe", " style=", " onclick=", "http:", "https:",
          "src=\"/", "href=\"/", "raw HTML omitted", "<!--"}) {
      EXPECT_EQ(page.find(word), std::string::npos) << name << ": " << word;
    }
    EXPECT_EQ(page.find(project().string()), std::string::npos) << name;
    EXPECT_EQ(page.find(folder_->path()), std::string::npos) << name;
  }
}

TEST_F(GuidePages, CanBeHeardAndWalkedThroughByHeadings) {
  static const Pattern heading("^<h([1-6]) id=");
  static const Pattern picture("(<img [^>]*>)");
  static const Pattern told(" alt=\"([^\"]+)\"");
  static const Pattern source(" src=\"([^\"]+)\"");
  for (const auto& [name, page] : pages_) {
    EXPECT_TRUE(page.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"))
        << name;
    int before = 0, first = 0;
    for (const std::string& level : all_in(page, heading)) {
      const int now = std::stoi(level);
      EXPECT_LE(now, before + 1) << name << ": a level is left out";
      first += now == 1 ? 1 : 0;
      before = now;
    }
    EXPECT_EQ(first, 1) << name;
    EXPECT_EQ(all_in(page, Pattern("<title>([^<]+)</title>")).size(), 1U);
    for (const std::string& image : all_in(page, picture)) {
      EXPECT_FALSE(told.in(image).empty()) << name << ": " << image;
      const auto file = source.in(image);
      ASSERT_FALSE(file.empty()) << name << ": " << image;
      EXPECT_TRUE(fs::exists(made_in() / file[1])) << name << ": " << file[1];
    }
  }
}

TEST_F(GuidePages, TakeTheirPlaceAndNobodyElses) {
  const auto make = [&](const std::string& target) {
    return run_program({"sh", "-c",
                        "cd \"$0\" && SHEAF=$1 sh tools/guide.sh \"$2\"",
                        project().string(), SHEAF_PROGRAM, target});
  };
  EXPECT_EQ(make(made_in()).status, 0) << "again, over the first";
  const TemporaryFolder other;
  other.write("lesson.yaml", "pattern: oi\n");
  EXPECT_NE(make(other.path()).status, 0);
  EXPECT_EQ(read(fs::path(other.path()) / "lesson.yaml"), "pattern: oi\n");
}

}  // namespace
}  // namespace sheaf::test
