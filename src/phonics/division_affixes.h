#pragma once

#include <cstddef>
#include <vector>

#include "phonics/division.h"

namespace sheaf {

/// A place where a word parts whatever its consonants are.
struct FixedPlace {
  std::size_t at = 0;
  DivisionRule rule = DivisionRule::ending;
  /// The consonants say why, if they part the word there too: fin·ish.
  bool mild = false;
};

struct Affixes {
  std::vector<FixedPlace> places;  ///< what counts first stands first
  std::size_t dropped_at = 0;      ///< as `set_part_kinds` takes it
};

/// Where prefixes, endings and the words of a compound meet in a word, those
/// inside the words of a compound too.
Affixes find_affixes(const Reading& reading, const Phonics& phonics);

}  // namespace sheaf
