#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

/// A second count of the invented term, written from README.md and the heads
/// of documents alone: it shares no code with the program. It reads the files
/// of the term, which have one form, and nothing else; it sees a pattern in the
/// letters of a word (see words.tsv).
namespace sheaf::term {

struct Count {
  int right = 0, of = 0;
  friend bool operator==(const Count&, const Count&) = default;
};

/// One word as one learner wrote it.
struct Row {
  std::string target, written;
  bool right = false;
  int sequences = 0, possible = 0;
};

/// What one day showed of one pattern.
struct Day {
  std::string date;
  Count share, fresh;  ///< all words, and those never practised
};

struct PatternCount {
  std::string taught;
  std::vector<Day> days;
  Count all, fresh, window, before;
  std::string state;
};

/// What one record adds up to for one learner.
struct DayScore {
  Count words, sequences;
  std::map<std::string, Count> patterns;  ///< of the lesson
};

struct LearnerCount {
  /// By the date of the record, in the order of the dictation.
  std::map<std::string, std::vector<Row>> rows;
  std::map<std::string, DayScore> scores;  ///< by the same dates
  std::set<std::string> absent;
  std::map<std::string, PatternCount> patterns;
};

/// Days from 1970 on.
int day_of(const std::string& date);

/// Whether the pattern's letters of a word were written well.
bool has_pattern_right(const std::string& target, const std::string& written,
                       const std::string& pattern);

/// Between which percentages a share lies nine times in ten, by the formula of
/// E. B. Wilson (1927): for n words of which a share p is right, and z
/// = 1.6449, the middle is (p + z²/2n) / (1 + z²/n), and the ends are z/(1 +
/// z²/n) times the root of p(1 - p)/n + z²/4n² away from it.
struct Percents {
  int low = 0, high = 0;
};
Percents likely(const Count& count);

/// All learners of a folder with words.tsv, lessons and records.
std::map<std::string, LearnerCount> count_term(const std::string& folder);

}  // namespace sheaf::term
