#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/phoneme.h"

namespace sheaf {

/// What Sheaf says of a pattern: a row of `src/data/pattern_texts.tsv`, which
/// names the source of each. The texts live as long as the program.
struct PatternText {
  /// What the pattern's card and script look like.
  enum class Card : std::uint8_t {
    sound,     ///< a grapheme and its sound
    unusual,   ///< the same, of a sound that the grapheme seldom says
    silent,    ///< a letter that is not heard
    blend,     ///< consonants side by side, each with its sound
    closed,    ///< a shape of closed syllable
    syllable,  ///< a kind of syllable, and how its vowel sounds in it
    ending,    ///< an ending: what it means, what it sounds like
    join,      ///< what changes where an ending is joined
    prefix,    ///< what it means
    parts,     ///< a word of two parts
  };
  std::string_view id;
  Card card = Card::sound;
  /// For the learner, to be read at seven; `{key}`, `{g}`, `{p}` and `{m}`
  /// stand for the key word, the grapheme on the card, the key word's prefix or
  /// ending and what that means.
  std::string_view learner;
  std::string_view teacher;  ///< the generalisation
  std::string_view compare;  ///< what to set it beside
  std::string_view source;
  /// Of an ending that has several sounds, a word for each: jumped, sailed,
  /// landed.
  std::vector<std::string_view> words;
  /// What each of its endings or prefixes means: "ful", "full of it".
  struct Meaning {
    std::string_view affix, meaning;
  };
  std::vector<Meaning> meanings;
};

/// The texts of all patterns of the catalogue, in its order.
std::span<const PatternText> pattern_texts();
/// Null for a pattern of a lesson's own.
const PatternText* find_pattern_text(std::string_view id);

/// How a sound is said by itself.
struct SoundWay {
  enum class Way : std::uint8_t {
    hold,   ///< it can be held
    quick,  ///< it cannot: short and clean, with nothing behind it
    into,   ///< short, and straight into the vowel
    vowel,
    glide,  ///< long vowels, and those that move
  };
  Way way = Way::hold;
  /// What lips, tongue and voice do, lower case, no full stop.
  std::string_view how;
};
const SoundWay& way_of(Phoneme phoneme);

}  // namespace sheaf
