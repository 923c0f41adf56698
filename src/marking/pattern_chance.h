#pragma once

#include <string>
#include <vector>

#include "marking/session.h"
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

/// A word with a pattern as one learner wrote it on one day.
struct PatternChance {
  std::string target;
  std::string word;  ///< the target as `read_written` makes it comparable
  Cause cause = Cause::none;

  bool taken() const { return cause == Cause::none; }
};

/// The chances that a learner had for a pattern in a session, in the order of
/// the writing. A word that came up several times, in the list and in a
/// sentence, is one chance, taken if it was right each time. A word known by
/// sight is none.
std::vector<PatternChance> chances_for(PatternId pattern,
                                       const SessionResult& session,
                                       const LearnerResult& learner,
                                       const PatternCatalogue& catalogue);

}  // namespace sheaf
