#pragma once

#include <string_view>
#include <vector>

#include "layout/block.h"
#include "marking/progress.h"

namespace sheaf {

using PatternList = std::vector<const PatternProgress*>;

/// A learner's patterns of one state, in the order of teaching.
PatternList patterns_of(const LearnerProgress& learner, ProgressState state);

/// Patterns in a paragraph: "Secure, with the day last seen: sh 26/26, 91–100%,
/// 26 Oct; ..." The counts are those that the state rests on, with their range.
/// Adds nothing where there are none.
void add_states_in_brief(Composer& composer, std::string_view lead,
                         const PatternList& patterns,
                         const PatternCatalogue& catalogue);

/// What they still need to be secure, unless `all` is false, and which look
/// known by heart, in two paragraphs. What a pattern that is being practised
/// needs, the rules say.
void add_needed(Composer& composer, const PatternList& patterns, bool all,
                const PatternCatalogue& catalogue);

/// What the learner showed of patterns before they were taught, if anything.
void add_known_before(Composer& composer, const LearnerProgress& learner,
                      const PatternCatalogue& catalogue);

/// Errors that follow how the learner speaks, which are nobody's fault and
/// stand apart: a line, with its first letter made a capital.
void add_speech(Composer& composer, std::string_view text);

/// The rules behind the states, in a few lines.
void add_rules(Composer& composer, const ProgressRules& rules);

}  // namespace sheaf
