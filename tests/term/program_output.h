#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "second_count.h"

/// The program run as a teacher runs it, and what it prints taken apart.
namespace sheaf::term {

/// Parts between a sign; between commas, what stands in quotes is whole.
std::vector<std::string> parted(const std::string& line, char at);

/// The letters and figures of a text alone.
std::string letters(const std::string& text);

/// The lines of a run that went well, messages among them.
std::vector<std::string> lines_of_run(std::vector<std::string> arguments);

/// The rows of a table for other programs, each by the names of its columns;
/// the head is the line that begins with this column.
using CsvRow = std::map<std::string, std::string>;
std::vector<CsvRow> csv_rows(const std::vector<std::string>& lines,
                             const std::string& first_column);

/// Rows of `mark --csv` by learner and date.
using CsvRows =
    std::map<std::string, std::map<std::string, std::vector<CsvRow>>>;
CsvRows marked_rows(const std::string& folder);

/// The table at the head of each record that `mark` prints, by date and
/// learner.
using Scores = std::map<std::string, std::map<std::string, DayScore>>;
struct PrintedScores {
  Scores learners;
  int groups = 0;  ///< rows of a group, each the sum of its learners
};
PrintedScores printed_scores(const std::string& folder);

/// What `progress` prints.
struct PrintedPattern {
  std::string taught, state;
  Count all, fresh, window;
};
struct PrintedLearner {
  std::map<std::string, PrintedPattern> patterns;
  std::map<std::string, Count> sequences;  ///< by date
};
using Printed = std::map<std::string, PrintedLearner>;
/// Of the learners with these codes.
Printed printed_progress(const std::string& folder,
                         const std::set<std::string>& codes);

}  // namespace sheaf::term
