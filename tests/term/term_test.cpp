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
#include <memory>
#include <set>
#include <sstream>

#include "second_count.h"
#include "support/run_program.h"

namespace sheaf::term {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

const std::string kTerm = SHEAF_PROJECT "/tests/term";

std::vector<std::string> parted(const std::string& line, char at) {
  std::vector<std::string> parts;
  std::istringstream in(line);
  for (std::string part; std::getline(in, part, at);) parts.push_back(part);
  if (line.ends_with(at)) parts.emplace_back();
  return parts;
}

std::string without_end(std::string text) {
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

std::string letters(const std::string& text) {
  std::string plain;
  for (const char c : text) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0) plain += c;
  }
  return plain;
}

// The lines of a run that went well, messages among them.
std::vector<std::string> lines_of_run(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), SHEAF_PROGRAM);
  const Outcome outcome = run_program(arguments);
  EXPECT_EQ(outcome.status, 0) << outcome.out;
  return parted(outcome.out, '\n');
}

// Rows of `mark --csv`, each by the names of the columns; by learner and date.
using CsvRow = std::map<std::string, std::string>;
using CsvRows =
    std::map<std::string, std::map<std::string, std::vector<CsvRow>>>;

CsvRows marked_rows(const std::string& folder) {
  CsvRows rows;
  std::vector<std::string> names;
  for (const std::string& line :
       lines_of_run({"mark", folder + "/records", "--csv"})) {
    const std::vector<std::string> cells = parted(line, ',');
    if (line.starts_with("date,")) {
      names = cells;
    } else if (!names.empty() && cells.size() == names.size() &&
               line.starts_with("2026-")) {
      CsvRow row;
      for (std::size_t i = 0; i < cells.size(); ++i) row[names[i]] = cells[i];
      rows[row["learner"]][row["date"]].push_back(std::move(row));
    }
  }
  return rows;
}

// What `progress` prints.
struct PrintedPattern {
  std::string taught, state;
  Count all, fresh, window;
};
struct PrintedLearner {
  std::map<std::string, PrintedPattern> patterns;
  std::map<std::string, Count> sequences;  // by date
};
using Printed = std::map<std::string, PrintedLearner>;

// "36/45 (80%)".
Count count_in(const std::string& text) {
  const std::size_t slash = text.find('/');
  if (slash == std::string::npos) return {};
  return {std::stoi(text.substr(0, slash)), std::stoi(text.substr(slash + 1))};
}

// Its tables, read by where the heads of the columns stand.
class ProgressReader {
 public:
  Printed read(const std::string& folder, const std::set<std::string>& codes) {
    Printed all;
    std::string code;
    for (const std::string& line :
         lines_of_run({"progress", folder + "/records"})) {
      if (codes.contains(line)) {
        code = line;
        columns_.clear();
      } else if (code.empty()) {
        continue;
      } else if (line.starts_with("  pattern ")) {
        read_heads(line);
      } else if (line.starts_with("  letter sequences: ")) {
        read_sequences(line.substr(20), all[code]);
      } else if (!columns_.empty() &&
                 cell(line, "taught").starts_with("2026-")) {
        all[code].patterns[cell(line, "pattern")] = {
            cell(line, "taught"), cell(line, "status"),
            count_in(cell(line, "all since taught")),
            count_in(cell(line, "new words")),
            count_in(cell(line, "based on"))};
      }
    }
    return all;
  }

 private:
  void read_heads(const std::string& line) {
    begins_.clear();
    for (const char* head : {"pattern", "taught", "status", "all since taught",
                             "new words", "writing", "based on"}) {
      // "taught" stands in "all since taught" as well.
      columns_[head] = line.find(std::string("  ") + head) + 2;
      EXPECT_LT(columns_[head], line.size()) << head;
      begins_.insert(columns_[head]);
    }
  }

  static void read_sequences(const std::string& text, PrintedLearner& learner) {
    for (const std::string& day : parted(text, ',')) {
      std::istringstream in(day);
      std::string date, of;
      Count count;
      in >> date >> count.right >> of >> count.of;
      learner.sequences[date] = count;
    }
  }

  std::string cell(const std::string& line, const std::string& head) const {
    const std::size_t at = columns_.at(head);
    if (at >= line.size()) return {};
    const auto next = begins_.upper_bound(at);
    const std::size_t end = next == begins_.end() ? line.size() : *next;
    return without_end(line.substr(at, end - at));
  }

  std::map<std::string, std::size_t> columns_;
  std::set<std::size_t> begins_;
};

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
    printed_ = ProgressReader().read(folder, codes);
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

  // Nobody is asked to come back to what was not taught to them.
  void compare_review(bool namesakes) const {
    std::set<std::string> patterns;
    for (const auto& learner : second_) {
      for (const auto& one : learner.second.patterns) {
        patterns.insert(one.first);
      }
    }
    const TemporaryFolder out;
    std::string code;
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
      if (second_.contains(pattern)) {
        code = pattern;
        in >> pattern;
      }
      if (code.empty() || !patterns.contains(pattern) ||
          has_namesakes(code) != namesakes) {
        continue;
      }
      ++items;
      EXPECT_TRUE(second_.at(code).patterns.contains(pattern))
          << code << " is to come back to " << pattern;
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

TEST(Term, EveryPatternStandsWhereTheSecondCountHasIt) {
  term().compare_patterns(false);
}

TEST(Term, LessonsOfOneNameInTwoFoldersAreTwo) {
  term().compare_patterns(true);
}

TEST(Term, LetterSequencesAddUp) { term().compare_sequences(); }

TEST(Term, ReviewsOnlyWhatWasTaughtToTheLearner) {
  term().compare_review(false);
}

TEST(Term, ReviewsOnlyWhatWasTaughtWhereNamesAreTheSame) {
  term().compare_review(true);
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
    one.compare_patterns(false);
    one.compare_patterns(true);
    one.compare_sequences();
    one.compare_review(false);
  }
}

}  // namespace
}  // namespace sheaf::term
