#pragma once

#include <string>
#include <vector>

#include "layout/touch_marks.h"
#include "phonics/pattern_text.h"
#include "sheets/word_division.h"

namespace sheaf {

struct AnalyzedLesson;
struct AnalyzedWord;

/// A pattern as it is taught: what its card shows and its script speaks of. A
/// sound shows its grapheme, a blend its consonants, an ending its base and
/// what it adds, and so on (see PatternText::Card). Points into the lesson.
struct PatternCard {
  /// A pattern of the lesson's own, and one whose key word has not the parts
  /// that its kind asks for, is shown as a sound.
  PatternText::Card look = PatternText::Card::sound;
  const PatternText* text = nullptr;  ///< null for a pattern of a lesson's own
  const AnalyzedWord* key = nullptr;  ///< null where no word is the key word

  /// What stands largest: "sh", "fl", "-ed", "un-", "ship", "ba·by", "hopping".
  std::string face;
  /// The letters of `face` to be touched one by one; empty for none.
  std::vector<Grapheme> touched;
  /// The letters of `face` that an ending changed, as bytes: the second p of
  /// hopping. Empty where begin is end.
  std::size_t changed_begin = 0, changed_end = 0;
  /// What the word is made of: "jump", "ed"; "sun", "set"; "do", "not". Empty
  /// for others.
  std::vector<std::string> parts;
  /// How the first part came to be changed by the second.
  Joint joint = Joint::plain;
  /// The key word in beats, and the beat that the pattern is about; empty and
  /// -1 where the pattern is not about beats.
  std::vector<std::string> beats;
  int beat = -1;
  /// Words with each of the sounds that the ending can have, and the sound
  /// between slashes: jumped "/t/", sailed "/d/", landed "/id/". The first is
  /// not the key word's in general: see `own`.
  struct Sounds {
    std::string word, sound;
    bool own = false;  ///< the sound that the key word has
  };
  std::vector<Sounds> sounds;
  /// The sounds of each grapheme in `face`, between slashes, for a blend, a
  /// closed syllable, an ending or a prefix.
  std::vector<std::string> said;
  /// What the learner is told, with the key word in it; empty where there is no
  /// text.
  std::string learner;

  /// Whether it is taught as a grapheme and its sound.
  bool is_sound() const;
  /// "jump + ed", "sun + set"; empty without parts.
  std::string sum() const;
};

/// The card of a lesson's pattern, by its index.
PatternCard pattern_card(const AnalyzedLesson& lesson, std::size_t index);

/// What stands at the head of a column of words with the pattern: its
/// graphemes, its ending, or a word of it as a model.
std::string column_head(const AnalyzedLesson& lesson, std::size_t index);

/// How to say a sound by itself: "Hold /sh/, with no “uh” after it: lips round,
/// …". Two sounds are said one after the other. A whole paragraph; empty for
/// no sound.
std::string how_to_say(const AnalyzedLesson& lesson,
                       const std::vector<Phoneme>& sound);

}  // namespace sheaf
