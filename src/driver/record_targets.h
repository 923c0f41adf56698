#pragma once

#include <span>
#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "driver/requests.h"
#include "driver/workspace.h"
#include "input/record_file.h"
#include "marking/target_choice.h"

namespace sheaf {

/// Asks which words these attempts were meant for, with a mend for each that
/// is likely. All are errors: what cannot be told is not guessed.
void report_unclear_targets(std::span<const UnclearTarget> unclear,
                            Diagnostics& diagnostics);

/// What is wrong with an attempt, and what to do: "`rus` may be `rush` or
/// `rust`".
struct UnclearText {
  std::string text, help;
};
UnclearText unclear_text(const UnclearTarget& target);

/// What an attempt was taken for: "`rus` is taken for `rush`".
std::string found_text(const FoundTarget& found);

/// What `check` says of a record.
struct RecordReport {
  Date date;
  std::string lesson;
  Record::Kind kind = Record::Kind::dictation;
  int marked = 0, absent = 0;
  int errors = 0;  ///< words that are not right
};

/// Reads and marks the records of a file, with what they name. What attempts
/// were taken for is noted. Empty where there are errors.
std::vector<RecordReport> check_records(Workspace& workspace,
                                        const LessonRequest& request,
                                        const std::string& path,
                                        Diagnostics& diagnostics);

}  // namespace sheaf
