#pragma once

#include "layout/block.h"
#include "marking/progress.h"

namespace sheaf {

/// Where one learner stands: what is secure in a paragraph, of the others what
/// is still needed, in a table. Where so many rows would leave no room for the
/// weeks, those that go well stand in a paragraph too. Each has the counts that
/// its state rests on, their range, and all counts since teaching.
void add_states(Composer& composer, const LearnerProgress& learner,
                const PatternCatalogue& catalogue);

/// What the learner showed of patterns before they were taught, if anything.
void add_known_before(Composer& composer, const LearnerProgress& learner,
                      const PatternCatalogue& catalogue);

/// The rules behind the states, in two lines.
void add_rules(Composer& composer, const ProgressRules& rules);

}  // namespace sheaf
