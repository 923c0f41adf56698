#pragma once

#include "marking/progress.h"

namespace sheaf {

/// Works out the state after each of a pattern's points (by date), and on the
/// day `as_of`, and says in `why` what the last one rests on. Uses `taught` and
/// `points`; sets `state`, `window`, `week`, `listed`, `why` and the dates of
/// being secure.
///
/// - Secure: a run of days up to now has enough opportunities with few enough
///   misses, spread over enough days, with enough new words and one late
///   enough; and the misses of a longer time are few enough too. It stays
///   secure while misses are neither close together nor many.
/// - Check again: was secure, then misses were close together or many, or it
///   was not seen for too long; until the rule for secure holds again.
/// - Go on: enough of the week up to now is right, of five at least; where the
///   week has fewer, days before it are taken in.
void find_states(PatternProgress& progress, const Date& as_of,
                 const ProgressRules& rules);

}  // namespace sheaf
