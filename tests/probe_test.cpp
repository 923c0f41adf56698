// `sheaf probe` from the command line to a record, in a folder of its own.

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <set>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

Outcome sheaf(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), SHEAF_PROGRAM);
  return run_program(arguments);
}

// Runs of letters, in lower case, outside comments; `strict: yes` has no word
// that anybody reads.
std::set<std::string> words_in_text(const std::string& text) {
  std::set<std::string> words;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("#") || line.starts_with("strict:")) continue;
    std::string word;
    for (const char c : line + " ") {
      if (std::isalpha(static_cast<unsigned char>(c)) != 0) {
        word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
      } else if (!word.empty()) {
        words.insert(word);
        word.clear();
      }
    }
  }
  return words;
}

std::vector<std::string> dictated(const std::string& file) {
  std::vector<std::string> words;
  std::istringstream lines(read(file));
  for (std::string line; std::getline(lines, line);) {
    const std::string_view key = "dictate-words: ";
    if (!line.starts_with(key)) continue;
    std::istringstream list(line.substr(key.size()));
    for (std::string word; list >> word;) words.push_back(word);
  }
  return words;
}

const std::string kYear = std::string(SHEAF_PROJECT) + "/lessons/year";

class Probe : public testing::Test {
 protected:
  std::string path(const std::string& name) const {
    return folder.path() + "/" + name;
  }
  const TemporaryFolder folder;
};

TEST_F(Probe, FormsAreAlikeAndHaveNoWordOfALesson) {
  const Outcome outcome =
      sheaf({"probe", kYear + "/sequence.yaml", "--out", path("a")});
  ASSERT_EQ(outcome.status, 0) << outcome.out;
  std::set<std::string> of_lessons;
  for (const auto& entry : fs::directory_iterator(kYear)) {
    of_lessons.merge(words_in_text(read(entry.path())));
  }
  // The lists that Sheaf chose stand in the lessons of the year, not in others.
  ASSERT_GT(of_lessons.size(), 500U);
  std::set<std::string> all;
  std::set<std::size_t> counts, letters;
  for (const char form : std::string("abcdefgh")) {
    const auto words = dictated(path(std::string("a/probe-") + form + ".yaml"));
    std::size_t sum = 0;
    for (const std::string& word : words) {
      EXPECT_FALSE(of_lessons.contains(word)) << word;
      EXPECT_TRUE(all.insert(word).second) << word;
      sum += word.size() + 1;
    }
    counts.insert(words.size());
    letters.insert(sum);
  }
  EXPECT_EQ(counts, std::set<std::size_t>{12});
  EXPECT_EQ(letters.size(), 1U);
}

TEST_F(Probe, TheSameSeedGivesTheSameBytes) {
  const std::string sequence = kYear + "/sequence.yaml";
  for (const char* out : {"a", "b"}) {
    ASSERT_EQ(sheaf({"probe", sequence, "--out", path(out)}).status, 0);
  }
  ASSERT_EQ(
      sheaf({"probe", sequence, "--seed", "2", "--out", path("c")}).status, 0);
  for (const char form : std::string("abcdefgh")) {
    const std::string name = std::string("/probe-") + form + ".yaml";
    EXPECT_EQ(read(path("a" + name)), read(path("b" + name)));
    EXPECT_NE(dictated(path("a" + name)), dictated(path("c" + name)));
  }
}

TEST_F(Probe, AFormIsPrintedRecordedAndCounted) {
  folder.write("sequence.yaml",
               "steps:\n  - patterns: [sh]\n  - patterns: [ch]\n"
               "  - patterns: [ck]\n  - patterns: [ee]\n");
  folder.write("class.yaml", "learners: [B7, C3]\n");
  ASSERT_EQ(sheaf({"probe", path("sequence.yaml"), "--forms", "3"}).status, 0);
  const std::string form = path("probes/probe-a.yaml");
  const Outcome built = sheaf({"build", form, "--out", path("out")});
  EXPECT_EQ(built.status, 0) << built.out;
  EXPECT_NE(built.out.find("1 page for the learner, 2 pages for the teacher"),
            std::string::npos)
      << built.out;
  EXPECT_EQ(built.out.find("warning"), std::string::npos) << built.out;
  const Outcome made =
      sheaf({"record", form, "--class", path("class.yaml"), "--date",
             "2026-03-12"});  // it knows that this is no lesson
  ASSERT_EQ(made.status, 0) << made.out;
  const std::string record = path("records/2026-03-12-probe-a-probe.yaml");
  std::string text = read(record);
  const std::size_t at = text.find("not yet");
  ASSERT_NE(at, std::string::npos);
  text.replace(at, 7, "all");
  folder.write("records/2026-03-12-probe-a-probe.yaml", text);
  const Outcome progress = sheaf({"progress", path("records")});
  EXPECT_EQ(progress.status, 0);
  EXPECT_NE(progress.out.find("2026-03-12 12 and "), std::string::npos)
      << progress.out;
  EXPECT_NE(progress.out.find("No baseline yet"), std::string::npos)
      << progress.out;
}

TEST_F(Probe, LeavesFormsThatAreThereAlone) {
  folder.write("sequence.yaml", "steps:\n  - patterns: [sh]\n");
  fs::create_directories(path("probes"));
  folder.write("probes/probe-b.yaml", "mine\n");
  const Outcome outcome =
      sheaf({"probe", path("sequence.yaml"), "--forms", "2", "--count", "6"});
  EXPECT_EQ(outcome.status, 3) << outcome.out;
  EXPECT_NE(outcome.out.find("probe-b.yaml"), std::string::npos) << outcome.out;
  EXPECT_EQ(read(path("probes/probe-b.yaml")), "mine\n");
  EXPECT_FALSE(fs::exists(path("probes/probe-a.yaml")));
}

TEST_F(Probe, SaysWhereThereAreTooFewWords) {
  folder.write("sequence.yaml", "steps:\n  - patterns: [qu]\n");
  const Outcome outcome = sheaf({"probe", path("sequence.yaml")});
  EXPECT_EQ(outcome.status, 1) << outcome.out;
  EXPECT_NE(outcome.out.find("--count"), std::string::npos) << outcome.out;
  EXPECT_FALSE(fs::exists(path("probes")));
}

}  // namespace
}  // namespace sheaf::test
