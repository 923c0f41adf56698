#pragma once

#include <array>
#include <string>
#include <vector>

#include "sheets/sheet.h"

namespace sheaf {

/// What the sheet `sound-mouth`, its key and its script share, so that numbers
/// agree.
struct SoundMouth {
  struct Sound {
    std::vector<Phoneme> phonemes;
    /// Empty where no spelling of it was taught.
    std::string grapheme;
    std::string word;          ///< a word that has it
    bool can_be_read = false;  ///< the word may stand before a learner
    Span span = {};            ///< of the word in the lesson, if it is there
  };
  struct Item {
    std::string word;
    int sound = 0;      ///< which of the two it has
    std::string other;  ///< the same word with the other sound; may be empty
  };
  /// That of the lesson, and one that is taken for it: the lesson's second if
  /// it has several.
  std::array<Sound, 2> sounds;
  std::vector<Item> items;  ///< in mixed order; their numbers are from 1
  std::string missing;      ///< why there is nothing to show

  /// What a sound is called on the page beside a box to tick: "sh"; "this"
  /// where both are spelled alike; "other" where it has no spelling yet.
  std::string label(int sound) const;
};

/// `in.options` are those of the sheet `sound-mouth`. Kept by the packet's
/// `SheetMemory`.
const SoundMouth& sound_mouth(const SheetInput& in);

/// Its part of the script.
ScriptLines sound_mouth_script(const SheetInput& in, const DayStep& step);

}  // namespace sheaf
