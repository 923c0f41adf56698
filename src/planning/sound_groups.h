#pragma once

#include <map>
#include <span>
#include <vector>

#include "phonics/phonics.h"

namespace sheaf {

/// Which consonants stand together at the beginning and at the end of English
/// words of one beat, counted over the words that people meet. A group counts
/// where several words have it: the end of sixth is in no other word, and
/// nobody wants to read it in a made-up one.
class SoundGroups {
 public:
  explicit SoundGroups(const Phonics& phonics);

  /// Whether the sounds of a word of one beat begin and end as English words
  /// do, and do not say the same l or r on both sides of the vowel (`shrort`),
  /// as words with two consonants before it seldom do.
  bool is_english(std::span<const Phoneme> sounds) const;

 private:
  using Group = std::vector<Phoneme>;
  struct Parts {
    Group onset, coda;
    bool has_vowel = false;
  };
  static Parts parts_of(std::span<const Phoneme> sounds);
  static Phoneme repeated(const Parts& parts);

  std::map<Group, int> onsets_, codas_;
  std::map<Phoneme, int> repeated_;  // on both sides of the vowel
};

}  // namespace sheaf
