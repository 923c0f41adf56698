#pragma once

#include <span>
#include <string_view>

#include "marking/grapheme_alignment.h"
#include "marking/target_units.h"

namespace sheaf {

/// How much likelier a word is than its alignment says, since learners write it
/// so again and again where they write for themselves: in the measure of
/// `GraphemeAlignment::cost`, negative where it is less likely. Marking goes
/// without it, since there it is known which word was meant.
/// - A split grapheme loses its e (lik, chas, huj).
/// - A weak beat at the end has no vowel letter (chikn, teachr).
/// - Two neighbours change places (freind, fier).
/// - Nobody puts a letter too many before a word.
/// - th at the start of a word is not said as v.
/// Common practice, no source; the numbers are ours.
int usual_slips(std::span<const TargetUnit> target,
                const GraphemeAlignment& alignment, std::string_view letters);

}  // namespace sheaf
