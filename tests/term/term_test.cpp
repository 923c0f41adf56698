// A simulated term through the program as a teacher runs it, each number held
// against a second count that shares no code with it (second_count.h). The term
// lies here as text; term_writer.cpp says what is in it.
//
// ctest compares that term; `make term-test` many more of other seeds, as
// SHEAF_TERMS says.

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <map>
#include <set>
#include <sstream>

#include "program_output.h"
#include "second_count.h"
#include "support/run_program.h"

namespace sheaf::term {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

const std::string kTerm = SHEAF_PROJECT "/tests/term";

// Green and gold have lessons of the same names: what is said of their patterns
// holds only if two lessons of one name in two folders are two.
bool has_namesakes(const std::string& learner) {
  return learner[0] == 'C' || learner[0] == 'D';
}

// One term in a folder, counted by both.
class CountedTerm {
 public:
  explicit CountedTerm(const std::string& folder)
      : folder_(folder),
        second_(count_term(folder)),
        marked_(marked_rows(folder)) {
    std::set<std::string> codes;
    for (const auto& one : second_) codes.insert(one.first);
    printed_ = printed_progress(folder, codes);
  }

  const std::map<std::string, LearnerCount>& second() const { return second_; }

  void compare_words() const {
    int compared = 0;
    for (const auto& [code, learner] : second_) {
      SCOPED_TRACE(code);
      ASSERT_TRUE(marked_.contains(code));
      for (const auto& [date, rows] : learner.rows) {
        SCOPED_TRACE(date);
        const auto day = marked_.at(code).find(date);
        ASSERT_NE(day, marked_.at(code).end());
        ASSERT_EQ(day->second.size(), rows.size());
        for (std::size_t i = 0; i < rows.size(); ++i) {
          compare_word(day->second[i], rows[i]);
          ++compared;
        }
      }
      for (const std::string& date : learner.absent) {
        EXPECT_EQ(marked_.at(code).contains(date), learner.rows.contains(date))
            << date;
      }
    }
    EXPECT_GT(compared, 4000);
  }

  // What `mark` adds up at the head of each record.
  void compare_scores() const {
    const PrintedScores printed = printed_scores(folder_);
    for (const auto& [code, learner] : second_) {
      SCOPED_TRACE(code);
      for (const auto& [date, score] : learner.scores) {
        SCOPED_TRACE(date);
        ASSERT_TRUE(printed.learners.contains(date));
        const auto found = printed.learners.at(date).find(code);
        ASSERT_NE(found, printed.learners.at(date).end());
        EXPECT_EQ(found->second.words, score.words);
        EXPECT_EQ(found->second.sequences, score.sequences);
        EXPECT_EQ(found->second.patterns, score.patterns);
      }
    }
    // Twelve weeks and three checks of four groups, and a journal.
    EXPECT_EQ(printed.groups, 4 * (12 + 3) + 1);
  }

  // Each number that `progress` prints of a learner's patterns.
  void compare_patterns(bool namesakes) const {
    for (const auto& [code, learner] : second_) {
      if (has_namesakes(code) != namesakes) continue;
      SCOPED_TRACE(code);
      ASSERT_TRUE(printed_.contains(code));
      const auto& printed = printed_.at(code).patterns;
      for (const auto& [name, counted] : learner.patterns) {
        if (counted.days.empty()) continue;
        SCOPED_TRACE(name);
        const auto found = printed.find(name);
        ASSERT_NE(found, printed.end());
        EXPECT_EQ(found->second.taught, counted.taught);
        EXPECT_EQ(found->second.state, counted.state);
        expect_count(found->second.all, counted.all, "all");
        expect_count(found->second.fresh, counted.fresh, "new");
        expect_count(found->second.window, counted.window, "window");
      }
      for (const auto& one : printed) {
        EXPECT_TRUE(learner.patterns.contains(one.first))
            << one.first << " was not taught to this learner";
      }
    }
  }

  void compare_sequences() const {
    for (const auto& [code, learner] : second_) {
      SCOPED_TRACE(code);
      ASSERT_TRUE(printed_.contains(code));
      std::map<std::string, Count> sums;
      for (const auto& [date, rows] : learner.rows) {
        for (const Row& row : rows) {
          sums[date].right += row.sequences;
          sums[date].of += row.possible;
        }
      }
      EXPECT_EQ(printed_.at(code).sequences, sums);
    }
  }

  // The same numbers and more in the table for other programs.
  void compare_table(bool namesakes) const {
    const auto rows = csv_rows(
        lines_of_run({"progress", folder_ + "/records", "--csv"}), "learner");
    std::set<std::pair<std::string, std::string>> seen;
    const auto count = [](const CsvRow& row, const std::string& what) {
      const std::string right =
          row.at(what.empty() ? "right" : what + "_right");
      const std::string of = row.at(what.empty() ? "of" : what + "_of");
      if (of.empty()) return Count{};
      return Count{std::stoi(right), std::stoi(of)};
    };
    for (const CsvRow& row : rows) {
      const std::string code = row.at("learner"), name = row.at("pattern");
      if (!second_.contains(code) || has_namesakes(code) != namesakes) continue;
      SCOPED_TRACE(code);
      SCOPED_TRACE(name);
      const auto& patterns = second_.at(code).patterns;
      if (row.at("taught").empty()) {
        EXPECT_FALSE(patterns.contains(name));
        continue;
      }
      ASSERT_TRUE(patterns.contains(name));
      seen.emplace(code, name);
      const PatternCount& counted = patterns.at(name);
      EXPECT_EQ(row.at("taught"), counted.taught);
      EXPECT_EQ(row.at("state"), counted.state);
      EXPECT_EQ(row.at("last"), counted.days.back().date);
      expect_count(count(row, ""), counted.all, "all");
      expect_count(count(row, "window"), counted.window, "window");
      expect_count(count(row, "new"), counted.fresh, "new");
      expect_count(count(row, "before"), counted.before, "before");
      const Percents range = likely(counted.window);
      EXPECT_EQ(row.at("likely_low"), std::to_string(range.low));
      EXPECT_EQ(row.at("likely_high"), std::to_string(range.high));
    }
    for (const auto& [code, learner] : second_) {
      if (has_namesakes(code) != namesakes) continue;
      for (const auto& [name, counted] : learner.patterns) {
        EXPECT_TRUE(counted.days.empty() || seen.contains({code, name}))
            << code << ", " << name;
      }
    }
  }

  // Nobody is asked to come back to what was not taught to them, nor given a
  // word that has something of it.
  void compare_review(bool namesakes, bool words) const {
    std::set<std::string> patterns;
    for (const auto& learner : second_) {
      for (const auto& one : learner.second.patterns) {
        patterns.insert(one.first);
      }
    }
    const TemporaryFolder out;
    std::string code;
    std::size_t words_at = std::string::npos;
    int items = 0;
    for (const std::string& line :
         lines_of_run({"review", "--class", folder_ + "/class.yaml",
                       "--records", folder_ + "/records", "--week",
                       "2026-12-07", "--out", out.path()})) {
      std::istringstream in(line);
      std::string pattern;
      if (!(in >> pattern)) {
        code.clear();
        continue;
      }
      if (pattern == "learner") words_at = line.rfind("words");
      if (second_.contains(pattern)) {
        code = pattern;
        in >> pattern;
      }
      if (code.empty() || !patterns.contains(pattern) ||
          has_namesakes(code) != namesakes) {
        continue;
      }
      ++items;
      const auto& taught = second_.at(code).patterns;
      EXPECT_TRUE(taught.contains(pattern))
          << code << " is to come back to " << pattern;
      if (!words || line.size() <= words_at) continue;
      for (const std::string& word : parted(line.substr(words_at), ' ')) {
        for (const std::string& other : patterns) {
          EXPECT_TRUE(taught.contains(other) ||
                      word.find(other) == std::string::npos)
              << code << " gets " << word << " and was not taught " << other;
        }
      }
    }
    EXPECT_GT(items, 5);
  }

 private:
  static void compare_word(const CsvRow& row, const Row& counted) {
    SCOPED_TRACE(counted.target + " as " + counted.written);
    EXPECT_EQ(row.at("target"), counted.target);
    EXPECT_EQ(letters(row.at("written")), counted.written);
    EXPECT_EQ(row.at("right"), counted.right ? "1" : "0");
    EXPECT_EQ(row.at("letter_sequences"), std::to_string(counted.sequences));
    EXPECT_EQ(row.at("letter_sequences_possible"),
              std::to_string(counted.possible));
    // Newer tables have the pattern of the lesson that a word shows.
    const auto pattern = row.find("pattern");
    if (pattern == row.end() || pattern->second.empty() ||
        counted.target.find(pattern->second) == std::string::npos) {
      return;
    }
    EXPECT_EQ(
        row.at("pattern_right"),
        has_pattern_right(counted.target, counted.written, pattern->second)
            ? "1"
            : "0");
  }

  static void expect_count(const Count& printed, const Count& counted,
                           const std::string& what) {
    EXPECT_EQ(printed.right, counted.right) << what << ", right";
    EXPECT_EQ(printed.of, counted.of) << what << ", of";
  }

  std::string folder_;
  std::map<std::string, LearnerCount> second_;
  CsvRows marked_;
  Printed printed_;
};

const CountedTerm& term() {
  static const CountedTerm one(kTerm);
  return one;
}

TEST(Term, HasAllThatMayHappenInOne) {
  EXPECT_EQ(term().second().size(), 18U);
  std::size_t absent = 0;
  std::set<std::string> states;
  for (const auto& [code, learner] : term().second()) {
    absent += learner.absent.size();
    for (const auto& one : learner.patterns) states.insert(one.second.state);
  }
  EXPECT_GT(absent, 5U);
  EXPECT_EQ(states, (std::set<std::string>{"practising", "go on", "secure",
                                           "check again"}));
  // The newcomer, and the learner who moved to another group.
  const auto& newcomer = term().second().at("A5").patterns;
  EXPECT_TRUE(newcomer.contains("nk"));
  EXPECT_FALSE(newcomer.contains("sh"));
  const auto& mover = term().second().at("B1").patterns;
  EXPECT_EQ(mover.at("sh").taught, "2026-09-11");
  EXPECT_EQ(mover.at("oa").taught, "2026-10-23");
}

TEST(Term, EveryWordIsMarkedAsTheSecondCountHasIt) { term().compare_words(); }

TEST(Term, EveryRecordAddsUpToTheSameScores) { term().compare_scores(); }

TEST(Term, EveryPatternStandsWhereTheSecondCountHasIt) {
  term().compare_patterns(false);
}

TEST(Term, LessonsOfOneNameInTwoFoldersAreTwo) {
  term().compare_patterns(true);
}

TEST(Term, TheTableForOtherProgramsHasTheSameNumbers) {
  term().compare_table(false);
  term().compare_table(true);
}

TEST(Term, LetterSequencesAddUp) { term().compare_sequences(); }

TEST(Term, ReviewsOnlyWhatWasTaughtToTheLearner) {
  term().compare_review(false, false);
}

TEST(Term, ReviewsInWordsOfWhatWasTaughtToTheLearner) {
  term().compare_review(false, true);
  term().compare_review(true, true);
}

void write_term(const std::string& folder, const std::string& seed) {
  const Outcome written =
      run_program({SHEAF_TERM_WRITER, kTerm + "/words.tsv", folder, seed});
  ASSERT_EQ(written.status, 0) << written.out;
}

// The seed is fixed: the program that wrote the term writes it again.
TEST(Term, IsWhatItsWriterWrites) {
  const TemporaryFolder folder;
  write_term(folder.path(), "0");
  int files = 0;
  for (const auto& entry : fs::recursive_directory_iterator(folder.path())) {
    if (!entry.is_regular_file()) continue;
    const fs::path there =
        fs::path(kTerm) / fs::relative(entry.path(), folder.path());
    EXPECT_EQ(testing_support::file_bytes(entry.path()),
              testing_support::file_bytes(there))
        << there;
    ++files;
  }
  EXPECT_EQ(files, 4 * 15 + 4 + 1);
}

// Other learners, other days away, other errors.
TEST(Terms, OfOtherSeedsAgreeToo) {
  const char* asked = std::getenv("SHEAF_TERMS");
  const int count = asked == nullptr ? 1 : std::atoi(asked);
  for (int seed = 1; seed <= count; ++seed) {
    SCOPED_TRACE(seed);
    const TemporaryFolder folder;
    write_term(folder.path(), std::to_string(seed));
    fs::copy_file(kTerm + "/words.tsv", folder.path() + "/words.tsv");
    const CountedTerm one(folder.path());
    one.compare_words();
    one.compare_scores();
    one.compare_patterns(false);
    one.compare_patterns(true);
    one.compare_sequences();
    one.compare_review(false, true);
    one.compare_review(true, true);
  }
}

}  // namespace
}  // namespace sheaf::term
