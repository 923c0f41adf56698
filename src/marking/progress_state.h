#pragma once

#include "marking/progress.h"

namespace sheaf {

/// Works out the state after each of a pattern's points (by date) and says in
/// `why` what the last one rests on. Uses `taught` and `points`; sets `state`,
/// `week` and `why`.
///
/// - Secure: some run of days up to now has enough opportunities with few
///   enough misses, spread over enough days, with enough new words and one
///   late enough. Longer runs may have misses in proportion.
/// - Check again: once secure, any day with a miss; until enough are right in
///   a row on later days.
/// - Go on: enough of the week up to now is right, of five at least; where the
///   week has fewer, days before it are taken in.
void find_states(PatternProgress& progress, const ProgressRules& rules);

}  // namespace sheaf
