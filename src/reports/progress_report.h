#pragma once

#include <span>

#include "marking/progress.h"
#include "reports/report_document.h"

namespace sheaf {

/// Learners down and patterns across: where each stands, with counts; then who
/// needs the same, and the rules behind it.
void add_group_report(const ReportMaker& maker,
                      std::span<const LearnerProgress> learners,
                      const PatternCatalogue& catalogue,
                      const ProgressRules& rules);

/// One learner on one page, for a meeting or for home: each pattern and what
/// its state rests on, a grid of patterns and weeks, and the letter sequences
/// of each hundred over the weeks with baseline and aim line. `rate` is what
/// the aim line rises by in a week, in hundredths.
void add_learner_report(const ReportMaker& maker,
                        const LearnerProgress& learner,
                        const PatternCatalogue& catalogue,
                        const ProgressRules& rules, int rate);

}  // namespace sheaf
