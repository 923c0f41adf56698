#pragma once

#include <vector>

#include "layout/block.h"
#include "marking/progress.h"
#include "reports/school_weeks.h"

namespace sheaf {

/// Adds a table of patterns: each with its state, the counts that this rests on
/// with their range, and what was right in each of the last weeks, as many as
/// have room. Below it a row of the weekly lists, and what its signs mean. Adds
/// nothing where there is neither pattern nor list.
void add_progress_table(Composer& composer, const LearnerProgress& learner,
                        const std::vector<const PatternProgress*>& patterns,
                        const PatternCatalogue& catalogue,
                        const SchoolWeeks& weeks);

}  // namespace sheaf
