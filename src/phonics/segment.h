#pragma once

#include <cstdint>
#include <vector>

#include "phonics/inventory.h"

namespace sheaf {

/// One correspondence laid on a word. Offsets count the word's letters alone:
/// lower case, without apostrophes, hyphens and accents.
struct Segment {
  CorrespondenceId id = 0;
  std::uint8_t begin = 0;
  /// Where the e of a split grapheme stands, else -1.
  std::int8_t split_e = -1;

  friend bool operator==(const Segment&, const Segment&) = default;
};

using Segments = std::vector<Segment>;

/// The phonemes of all segments, one behind the other.
std::vector<Phoneme> phonemes_of(const Segments& segments,
                                 const Inventory& inventory);
int syllable_count(const Segments& segments, const Inventory& inventory);
/// How many syllables have their vowel before segment `index`.
int syllables_before(const Segments& segments, std::size_t index,
                     const Inventory& inventory);

}  // namespace sheaf
