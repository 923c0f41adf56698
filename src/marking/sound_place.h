#pragma once

#include <string>

#include "phonics/conventions.h"
#include "phonics/reading.h"

namespace sheaf {

/// Where a grapheme's sound stands, as one says it to a learner.
struct SoundPlace {
  /// "first", "second", "last" beat; empty in a word of one.
  std::string beat;
  /// "the first sound", "the last sound", "the sound after /s/"; of the beat
  /// in a longer word. "the middle sound" in a word of one beat and three
  /// sounds only. Empty where the beat has no other sound.
  std::string sound;
  /// How many sounds the beat has, as taught.
  int sounds = 0;
};

SoundPlace sound_place(const Reading& word, std::size_t unit,
                       const Conventions& conventions);

/// The grapheme's sound between slashes, as the word has it: the o of pond, not
/// the a of father.
std::string sound_of_unit(const Reading& word, std::size_t unit,
                          const Conventions& conventions);

}  // namespace sheaf
