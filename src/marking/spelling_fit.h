#pragma once

#include <cstdint>
#include <string_view>

#include "marking/sound_spellings.h"

namespace sheaf {

/// Whether a reader would read a grapheme so where it stands.
enum class Fit : std::uint8_t {
  never,  ///< English does not use it for this sound, or in a few words only
  elsewhere,  ///< it says this sound in other places: c as /s/ before e, i, y
  unusual,    ///< it says this sound here, though English seldom puts it here
  usual,
};

/// A grapheme in its place in the letters that a learner wrote.
struct GraphemePlace {
  /// Lower case; letters only, anything else is some other sign.
  std::string_view letters;
  std::size_t begin = 0;
  std::size_t end = 0;
  /// Of the sound that was meant: in a stressed syllable.
  bool stressed = true;
  /// The grapheme that was meant is the letter u.
  bool u_meant = false;

  char next(std::size_t ahead = 0) const {
    return end + ahead < letters.size() ? letters[end + ahead] : '\0';
  }
  char previous(std::size_t back = 0) const {
    return begin > back ? letters[begin - back - 1] : '\0';
  }
};

/// The rules of reading that teachers know: c and g before e, i and y; single
/// vowels long in open syllables and short in closed ones; ck, tch and dge not
/// at the start; and so on. All common practice, no source; what a grapheme
/// says too seldom to count (ch as /sh/, s as /sh/) is told by its share in
/// the word list.
Fit spelling_fit(const Spelling& spelling, const GraphemePlace& place);

/// a, e, i, o, u, and y.
bool is_vowel_sign(char c);

}  // namespace sheaf
