#pragma once

#include <vector>

#include "cli/command_line.h"
#include "driver/marking_desk.h"
#include "marking/progress.h"

namespace sheaf {

/// Throws MachineError where the file that `--pdf` names is not Sheaf's to
/// replace.
void check_report_file(const CommandLine& line);

/// Write reports as PDF to the file that `--pdf` names.
void write_mark_pages(Workspace& workspace, const CommandLine& line,
                      const std::vector<MarkedRecord>& records);
/// `rate` in hundredths of a letter sequence a week; the pages are in the
/// language of the records' lessons.
void write_progress_pages(Workspace& workspace, const CommandLine& line,
                          const std::vector<MarkedRecord>& records,
                          const std::vector<LearnerProgress>& learners,
                          const ProgressRules& rules, int rate);

}  // namespace sheaf
