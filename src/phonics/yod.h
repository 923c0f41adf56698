#pragma once

#include <string_view>

#include "phonics/phoneme.h"

namespace sheaf {

/// A long u with the grapheme before it, as American English has them.
struct LongU {
  std::string_view grapheme;
  Phoneme sound = Phoneme::uw;
  bool stressed = false;
  std::string_view grapheme_before;
  Phoneme sound_before = Phoneme::t;  ///< its last
};

/// Whether those who say tune with /y/ have it here: behind t, n and th (tune,
/// new, enthusiasm), behind an s that says z (presume), and behind d in a
/// stressed beat (due, not duvet). From memory of the accents' common
/// descriptions.
bool keeps_yod(const LongU& vowel);

}  // namespace sheaf
