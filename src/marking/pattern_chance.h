#pragma once

#include "marking/mark_attempt.h"
#include "phonics/pattern_catalogue.h"

namespace sheaf {

/// A word that has a pattern is one opportunity for it, however often the
/// pattern comes in it. It was taken if every grapheme that shows the pattern
/// is correct; plausible is not enough. A pattern of the whole word asks for
/// all graphemes and no letter more. A pattern about how an ending is joined
/// (doubled, dropped e, y to i) also asks for the letters before the ending.
///
/// Gives `Cause::none` where the opportunity was taken, else what was behind
/// the first grapheme that failed. `place` is of the target's reading.
Cause missed_cause(const MarkedAttempt& attempt, const PatternPlace& place,
                   const PatternCatalogue& catalogue);

}  // namespace sheaf
