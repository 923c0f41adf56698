#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "phonics/phoneme.h"
#include "phonics/speech.h"

namespace sheaf {

/// A grapheme in a word together with the phonemes that it spells there: one
/// correspondence in its place.
struct Unit {
  /// As the inventory writes it, in lower case: "sh", "igh", "a_e".
  std::string grapheme;
  /// The bytes of the word that it takes up, as the word was given. For a
  /// split one (a_e) the part before the gap; its e stands at `split_e`.
  std::uint8_t begin = 0;
  std::uint8_t end = 0;
  /// Byte offset of the e of a split grapheme, else -1.
  std::int16_t split_e = -1;
  /// What is said here: as a dictionary of the accent in force counts them,
  /// with what is a matter of teaching settled (dog has short o). Whoever names
  /// a sound of a word names these. Never empty (silent letters go with a
  /// neighbour).
  std::vector<Phoneme> phonemes;
  /// What the accent's speakers have here, in the terms of the word list: the
  /// r of car and the vowel of saw are there in every accent, but tomato has
  /// the vowel of father in British English. Patterns and taught
  /// correspondences are decided on these.
  std::vector<Phoneme> listed;
  /// Which syllable its sound belongs to, from 0.
  std::uint8_t syllable = 0;
  bool stressed = false;
  /// The grapheme says something here that it seldom says elsewhere.
  bool irregular = false;
  /// A teacher's split says what it says, so that no convention does.
  bool given = false;
  /// An a with the vowel of father (bath, tomato), which is `listed` like the
  /// short o of swan and is not taught with it. Never set in General American.
  bool father = false;

  bool is_split() const { return split_e >= 0; }
};

/// A sound as taught under the conventions in force: one sound box.
struct Sound {
  std::vector<Phoneme> phonemes;
  /// The unit that spells it, as an index into `Reading::units`; the first
  /// one where `units` together make one sound (nk as one box).
  std::uint8_t unit = 0;
  std::uint8_t units = 1;
  /// Where one grapheme spells several sounds (x, qu) it is written across
  /// their boxes: this is box `part` of `parts`.
  std::uint8_t part = 0;
  std::uint8_t parts = 1;
};

using PatternId = std::uint16_t;

/// A pattern that a word has, and the units that show it. Patterns of the
/// whole word (a compound, a closed syllable) list all its units.
struct PatternPlace {
  PatternId pattern = 0;
  std::vector<std::uint8_t> units;
  /// A short vowel that its neighbour (m, n, ng, l) colours wherever the word
  /// has it: a word for later, not for a first list.
  bool later = false;
};

/// One way to say a word, with its spelling laid against its sounds.
struct Reading {
  enum class Origin {
    lexicon,     ///< the word list that Sheaf was built with
    supplement,  ///< our own reviewed list
    derived,     ///< a known base and a regular ending
    by_hand,     ///< the lesson's `split:`
    guess,       ///< nobody knows; always to be said to the teacher
  };
  /// The word as it was given, in Unicode form C.
  std::string word;
  std::vector<Unit> units;
  std::vector<Sound> sounds;
  std::vector<PatternPlace> places;
  /// The unit that is doubled before an ending, as the pp of hopping; -1 where
  /// there is none. Found with the patterns.
  int doubled = -1;
  /// The unit behind which an ending made the base drop its e, as the k of
  /// making; -1 where there is none. Found with the patterns.
  int dropped = -1;
  /// The bytes where the lesson's `split:` begins its parts, but for the first;
  /// empty where the word divides as divide_word says (division.h).
  std::vector<std::uint8_t> parted;
  Origin origin = Origin::lexicon;
  /// Whose phonemes `Unit::listed` are: its bases are looked up in the same.
  Speech speech;
  /// Tells the readings of one spelling apart, for people: "verb", "past".
  std::string label;

  int boxes() const { return static_cast<int>(sounds.size()); }
  int syllables() const {
    return units.empty() ? 0 : units.back().syllable + 1;
  }
  const PatternPlace* find(PatternId pattern) const;
};

}  // namespace sheaf
