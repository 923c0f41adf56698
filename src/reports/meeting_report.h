#pragma once

#include "marking/sessions.h"
#include "reports/progress_report.h"

namespace sheaf {

/// One learner for a meeting: where each pattern stands with its counts, then
/// the learner's errors by cause with examples and their dates, and what the
/// probes say in words.
void add_meeting_report(const ReportMaker& maker,
                        const LearnerProgress& learner, const Growth& growth,
                        const Sessions& sessions, const ProgressGround& ground);

}  // namespace sheaf
