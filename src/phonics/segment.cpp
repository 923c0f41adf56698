#include "phonics/segment.h"

#include <algorithm>

namespace sheaf {

std::vector<Phoneme> phonemes_of(const Segments& segments,
                                 const Inventory& inventory) {
  std::vector<Phoneme> all;
  all.reserve(segments.size() + 2);  // few of them say more than one
  for (const Segment& s : segments) {
    const auto p = inventory[s.id].phonemes();
    all.insert(all.end(), p.begin(), p.end());
  }
  return all;
}

int syllable_count(const Segments& segments, const Inventory& inventory) {
  return syllables_before(segments, segments.size(), inventory);
}

int syllables_before(const Segments& segments, std::size_t index,
                     const Inventory& inventory) {
  int vowels = 0;
  for (std::size_t i = 0; i < index; ++i) {
    vowels += static_cast<int>(
        std::ranges::count_if(inventory[segments[i].id].phonemes(), is_vowel));
  }
  return vowels;
}

}  // namespace sheaf
