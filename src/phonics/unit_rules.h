#pragma once

#include <string_view>

#include "phonics/inventory.h"
#include "phonics/letters.h"

namespace sheaf {

/// Rules of the trade on which correspondences may follow which. The aligner
/// and the guesser keep them as limits, never as weights (all common practice,
/// no source):
/// - A consonant keeps its final e after a short vowel (have, office,
///   promise): no split grapheme with a short vowel before c g s v x z.
/// - After a single letter with its long sound the e is split off (cake): no
///   unit such as `ve` directly behind one. Behind any single vowel letter the
///   other consonants let go of their e too (minute). No silent e stands
///   before a vowel, unless it softens its consonant (ocean).
/// - The i of ti, ci, si, gi stands before another vowel (nation).
/// - r is part of the vowel's grapheme unless a vowel comes next.
/// - Between a split vowel and its e stands one consonant sound, or st.

/// The last unit, as far as it matters for the next one.
enum LastUnit { kOther, kLongLetter, kShortLetter };
inline constexpr int kLastUnitCount = 3;
LastUnit kind_of(const Correspondence& unit);

/// Whether `unit`, which ends before letter `end`, may follow such a unit.
bool may_follow(const Correspondence& unit, LastUnit last,
                std::string_view letters, std::size_t end);

/// Whether a consonant unit may stand between a vowel and its split e.
bool may_stand_in_split(const Correspondence& unit);
/// Whether the letters from `at` on can be a split grapheme with one or two
/// consonants before its e; `short_vowel` tells how it sounds.
bool split_is_possible(std::string_view letters, std::size_t at,
                       bool short_vowel);

/// Whether a unit may stand behind the letters before `at`: re as in centre,
/// and the l of settled, behind a consonant; the m of rhythm behind s or th.
bool may_stand_at(const Correspondence& unit, std::string_view letters,
                  std::size_t at);

}  // namespace sheaf
