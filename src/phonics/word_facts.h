#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "phonics/endings.h"
#include "phonics/letter_map.h"
#include "phonics/lexicon.h"
#include "phonics/reading.h"

namespace sheaf {

/// What the patterns ask about a word as a whole.
struct WordFacts {
  std::string letters;
  /// Each unit's letters as offsets into `letters`.
  struct Place {
    std::uint8_t begin, end;
  };
  std::vector<Place> at;
  /// An ending with its place: units from `begin` to before `end`.
  struct PlacedEnding {
    EndingAnalysis analysis;
    std::size_t begin = 0, end = 0;
    /// The next ending changed its letters, as in friendlier, so that it is
    /// not there to be seen.
    bool changed = false;
  };
  /// Those of the word, the outermost first: in teachers -s, then -er.
  std::vector<PlacedEnding> endings;
  /// How many units stand before all endings; all where there is none.
  std::size_t base_units = 0;
  /// un, re, dis, ... where a known word stands behind it.
  std::string_view prefix;
  /// "apostrophe", "hyphen" or nothing.
  std::string_view mark;
  /// The first unit of the second word of a compound, else 0.
  std::size_t compound_at = 0;
  /// The letter that begins it, also where it stands inside a unit: the b of
  /// cupboard, whose pb is one.
  std::size_t compound_letter = 0;
  /// Graphemes of the consonants before the first vowel, "s+p+r", and after
  /// the last one.
  std::string onset, coda;
  /// A word of one beat with a short vowel written by one letter and plain
  /// consonants: "CVC", "CCVCC"; else empty.
  std::string shape;
};

/// `lexicon` says which bases and parts of compounds are words.
WordFacts find_facts(const Reading& reading, const LetterMap& map,
                     const Lexicon& lexicon);

/// The outermost of the endings that `find_facts` finds, alone.
EndingAnalysis find_outer_ending(const Reading& reading, const LetterMap& map,
                                 const Lexicon& lexicon);

/// Whether a unit is one letter with its usual short sound.
bool is_plain_short_vowel(const Unit& unit);
/// A vowel unit, a consonant unit.
bool has_vowel(const Unit& unit);

}  // namespace sheaf
