#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/phonics.h"
#include "phonics/reading.h"

namespace sheaf {

/// How a word is divided to be spelled in beats: fan·tas·tic, fire·side. Every
/// sheet that shows beats shows these.

/// What a part is by its letters (the kinds of the teaching trade).
enum class PartKind : std::uint8_t {
  closed,        ///< one vowel letter and consonants behind it: fan
  open,          ///< one vowel letter at the end: ti of tiger
  silent_e,      ///< a vowel, a consonant and e: side; mak of making
  team,          ///< a vowel of several letters: rain
  r_vowel,       ///< a vowel with r: mar of market
  consonant_le,  ///< ble of table
  whole,         ///< an ending that is learned whole: tion, ture
};

/// Why a word parts where it does.
enum class DivisionRule : std::uint8_t {
  by_hand,       ///< the lesson's `split:` says so
  prefix,        ///< behind a prefix: un·lock
  ending,        ///< before an ending: help·ful
  compound,      ///< between two words: fire·side
  consonant_le,  ///< before the consonant of -le: ta·ble
  vowels,        ///< between two vowels: li·on
  before,        ///< before one consonant: ti·ger
  after,         ///< after one consonant: cab·in
  both,          ///< before two consonants that start a beat: se·cret
  between,       ///< between two consonants: rab·bit
  cluster,       ///< among three or more: mon·ster
};

/// A part of a word, as bytes of it.
struct WordPart {
  std::uint8_t begin = 0, end = 0;
  PartKind kind = PartKind::closed;
  /// Its vowel is weak: said otherwise than its letter is read in such a part.
  bool weak = false;
  /// Why it begins where it does; of the first part it says nothing.
  DivisionRule rule = DivisionRule::between;

  std::string_view of(std::string_view word) const {
    return word.substr(begin, end - begin);
  }
};

/// The parts of a word in their order: one for a word of one beat, and never
/// none. Affixes come first, then the words of a compound, then -le; between
/// other vowels the consonants decide, by sound: a short stressed vowel keeps
/// one, what may begin a word stays together. Graphemes stay whole, but for
/// doubled letters and the st of listen. Common practice, no source, where
/// dictionaries differ; tests/data/divisions.tsv is what it is held against.
std::vector<WordPart> divide_word(const Reading& reading,
                                  const Phonics& phonics);

/// The letters of the parts: "rab", "bit".
std::vector<std::string> divided_letters(const Reading& reading,
                                         const Phonics& phonics);
/// "rab·bit".
std::string divided_text(const Reading& reading,
                         const std::vector<WordPart>& parts);

/// Its parts with their kinds, and why it parts where it does: "fan·tas·tic
/// (closed, closed, closed); between two consonants, between two consonants".
/// Empty for a word of one part.
std::string explain_division(const Reading& reading, const Phonics& phonics);

/// "closed", "vowel team".
std::string_view kind_name(PartKind kind);
/// Why it parts there, as the end of a sentence: "between two consonants".
std::string_view rule_name(DivisionRule rule);

}  // namespace sheaf
