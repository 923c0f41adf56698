#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "cli/command_line.h"
#include "driver/marking_desk.h"
#include "marking/goal_line.h"
#include "marking/progress.h"

namespace sheaf {

/// Throws MachineError where the file that `--pdf` names is not Sheaf's to
/// replace.
void check_report_file(const CommandLine& line);

/// Write reports as PDF to the file that `--pdf` names.
void write_mark_pages(Workspace& workspace, const CommandLine& line,
                      const std::vector<MarkedRecord>& records);

/// Whom pages of progress are for.
enum class ProgressReader { teacher, home, meeting };
/// "home"; the teacher where nothing is said, and nothing for another word.
std::optional<ProgressReader> read_reader(std::string_view word);

/// What pages of progress are made from, besides the workspace.
struct ProgressPages {
  const std::vector<MarkedRecord>& records;
  const std::vector<LearnerProgress>& learners;
  const ProgressRules& rules;
  /// The days on which anything was written down of anyone.
  std::vector<Date> days;
  /// What the command line says of the goal; the class file fills the rest.
  GoalWish goal;
  ProgressReader reader = ProgressReader::teacher;
};
/// The pages are in the language of the records' lessons.
void write_progress_pages(Workspace& workspace, const CommandLine& line,
                          const ProgressPages& pages);

/// What holds for one learner: the command line's goal, for the rest that of
/// the latest class file that lists the learner.
GoalWish goal_for(const LearnerCode& code, const GoalWish& asked,
                  const std::vector<MarkedRecord>& records);

}  // namespace sheaf
