#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/segment.h"

namespace sheaf {

/// Where the graphemes of a hand-made split stand in a word. Split graphemes
/// are written a_e at their vowel's place.
struct HandPlaces {
  struct Place {
    std::uint8_t begin = 0;
    std::int8_t split_e = -1;
  };
  std::vector<Place> places;
  /// A sentence where the graphemes do not make up the word, and the part it
  /// is about.
  std::string fault;
  int part = -1;
};
HandPlaces place_graphemes(std::string_view letters,
                           std::span<const std::string_view> graphemes);

/// Lays hand-made graphemes against known phonemes with correspondences of
/// the inventory; nothing where they do not fit.
Segments align_by_hand(const Inventory& inventory, std::string_view letters,
                       std::span<const std::string_view> graphemes,
                       std::span<const Phoneme> phonemes);

}  // namespace sheaf
