#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "marking/learner_speech.h"
#include "marking/word_source.h"
#include "phonics/reading.h"

namespace sheaf {

class Phonics;

/// A grapheme of the word that was meant, ready to be compared.
struct TargetUnit {
  /// One way to say it.
  struct Saying {
    std::array<Phoneme, 3> phonemes{};
    std::uint8_t count = 0;
    /// Only in the learner's accent.
    bool by_accent = false;

    std::span<const Phoneme> sounds() const { return {phonemes.data(), count}; }
  };

  std::string grapheme;
  /// The first is how the word list says it.
  std::vector<Saying> sayings;
  bool split = false;
  bool vowel = false;
  bool stressed = false;
  /// The e of a split grapheme stands right behind this unit.
  bool before_split_e = false;
  /// The ending -ed, which has three sounds and one spelling.
  bool ending_ed = false;
  /// An ending stands right behind this unit; for it, the consonant is doubled
  /// (hopping) or a final e dropped (making).
  bool before_ending = false;
  bool doubled_for_ending = false;
  bool dropped_e_before_ending = false;
  /// i that was y before the ending (babies, cried).
  bool y_to_i = false;
  bool begins_word = false, ends_word = false;
  bool before_nasal = false;
  /// As the learner speaks: it may not be heard at all, or, of the first unit,
  /// a vowel may be heard before it.
  bool unheard = false, vowel_before = false;

  std::span<const Phoneme> sound() const {
    return sayings.empty() ? std::span<const Phoneme>{}
                           : sayings.front().sounds();
  }
};

/// Whether a text is a word of the language.
using WordTest = std::function<bool(std::string_view)>;

/// Whether learners may well know a word: everyday words, and those of the
/// lists up to size 50 that are no names. `phonics` must outlive the test.
WordTest known_to_learners(const Phonics& phonics);

/// The graphemes of a reading. Words that are said in two ways (was, because)
/// get both. `is_word`, if given, tells bases from chance letters: running has
/// an ending, thing has none. Without it only -ed and -ing count as endings.
std::vector<TargetUnit> target_units(const Reading& reading,
                                     const LearnerSpeech& speech,
                                     const WordTest& is_word = {});

/// The same from the segments of a listed word, quicker; endings are not
/// looked for.
std::vector<TargetUnit> target_units(const ListedWord& word,
                                     const Inventory& inventory,
                                     const LearnerSpeech& speech);

}  // namespace sheaf
