#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "marking/growth.h"
#include "marking/progress.h"
#include "reports/report_document.h"

namespace sheaf {

/// What reports of progress know besides the learners. All must outlive them.
struct ProgressGround {
  const PatternCatalogue& catalogue;
  const ProgressRules& rules;
  /// The days on which anything was written down of anyone: weeks without any
  /// are holidays.
  std::span<const Date> days;
};

/// Learners down and patterns across: where each stands, with counts; then when
/// each pattern was last seen, who needs the same, and the rules behind it.
void add_group_report(const ReportMaker& maker,
                      std::span<const LearnerProgress> learners,
                      const ProgressGround& ground);

/// One learner for the teacher, on one page unless a year of patterns is in
/// need of work: each pattern, what its state rests on and its weeks; what is
/// still needed; and the growth over the probes. Where there is too much for a
/// page, what goes well is said in fewer words. `speech` is a line about errors
/// that follow how the learner speaks, without a full stop; empty: none.
void add_learner_report(const ReportMaker& maker,
                        const LearnerProgress& learner, const Growth& growth,
                        const ProgressGround& ground,
                        std::string_view speech = {});

/// The latest day of which there is something to tell of any of them.
std::string last_day_text(std::span<const LearnerProgress> learners);

}  // namespace sheaf
