#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sheets/sheet.h"

namespace sheaf {

/// Pictures, or words that are only heard, to sort by a sound, however the
/// words are spelled. Shared by the sheets that show, cut, name and answer
/// them, so that all agree.
struct SoundSort {
  struct Item {
    std::string word;
    const Picture* picture = nullptr;  ///< null where words are only heard
    Reading reading;
    int column = 0;
  };
  /// A column for each sound of the lesson, and one for words without any.
  struct Column {
    std::vector<Phoneme> sound;  ///< empty for the last
    std::string key_word;
    const Picture* key_picture = nullptr;
  };
  std::vector<Column> columns;
  /// Shown in their columns from the start: one for each, where there are
  /// enough.
  std::vector<Item> models;
  /// In mixed order; their numbers are their places, from 1.
  std::vector<Item> items;
  /// All words with their columns in the order of their choice: named so in a
  /// lesson, they make the same sort.
  std::vector<std::pair<std::string, int>> chosen;
  /// Why there is nothing to sort; empty if there is.
  std::string missing;
};

/// Chooses up to `count` pictures. The teacher's `same-sound` and `other-sound`
/// come first, then pictured words of the list, then words of the picture table
/// that most children name so. In a first set the others are far from the
/// sound; in later sets near ones come first, and of these such as differ from
/// a word with the sound in nothing else (chip, ship).
const SoundSort& sound_sort(const SheetInput& in, int count);

/// The same with words that the teacher says: no picture is needed, and words
/// of several beats come before short ones, as older learners need them.
const SoundSort& heard_sort(const SheetInput& in, int count);

/// Whether some grapheme of the word spells exactly this sound.
bool has_sound(const Reading& reading, const std::vector<Phoneme>& sound);

}  // namespace sheaf
