#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "phonics/reading.h"

namespace sheaf {

/// Whether two phonemes count as one where a word is compared with its base or
/// its parts: weak vowels, the two open o and the two th are alike.
inline bool same_sound(Phoneme a, Phoneme b) {
  using P = Phoneme;
  const auto weak = [](P p) { return p == P::ax || p == P::ih; };
  const auto open_o = [](P p) {
    return p == P::aa || p == P::ao || p == P::oh;
  };
  const auto th = [](P p) { return p == P::th || p == P::dh; };
  return a == b || (weak(a) && weak(b)) || (open_o(a) && open_o(b)) ||
         (th(a) && th(b));
}

/// Whether what two units say is taught as one sound: the weak end of sister is
/// that of bird where both have their r.
inline bool is_one_sound(std::span<const Phoneme> a,
                         std::span<const Phoneme> b) {
  const auto strong = [](Phoneme p) {
    return p == Phoneme::axr ? Phoneme::er : p;
  };
  return std::ranges::equal(a, b, {}, strong, strong);
}

/// Whether sounds end in those of a word, as they do behind a prefix: long and
/// weak e count as one there, and so does the first e of employ or enlarge.
inline bool ends_in_word(std::span<const Phoneme> whole,
                         std::span<const Phoneme> word) {
  using P = Phoneme;
  if (word.empty() || word.size() > whole.size()) return false;
  const auto level = [](P p, bool first) {
    return p == P::iy || (first && p == P::eh) ? P::ih : p;
  };
  const auto tail = whole.last(word.size());
  for (std::size_t i = 0; i < word.size(); ++i) {
    if (!same_sound(level(tail[i], i == 0), level(word[i], i == 0))) {
      return false;
    }
  }
  return true;
}

/// The phonemes of units as the word list has them, one behind the other.
inline std::vector<Phoneme> listed_sounds(std::span<const Unit> units) {
  std::vector<Phoneme> all;
  for (const Unit& unit : units) {
    all.insert(all.end(), unit.listed.begin(), unit.listed.end());
  }
  return all;
}

}  // namespace sheaf
