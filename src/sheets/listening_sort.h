#pragma once

#include <string>
#include <vector>

#include "sheets/sheet.h"
#include "sheets/sound_sort.h"

namespace sheaf {

/// What the sheet `listening-sort`, its key and its script share, so that
/// numbers agree.
struct ListeningSort {
  const SoundSort* sort = nullptr;  ///< kept by the packet's `SheetMemory`
  /// All words by their numbers, from 1; those of the first columns that are
  /// done already stand at the front.
  std::vector<const SoundSort::Item*> items;
  std::size_t done = 0;  ///< so many of them

  /// What stands at the head of a column, without letters that give the sound
  /// away: "our sound", "another sound", "sound 2", "left over".
  std::string head(std::size_t column) const;
};

/// `in.options` are those of the sheet `listening-sort`.
ListeningSort listening_sort(const SheetInput& in);

/// Its part of the script, and the words by number.
ScriptLines listening_sort_script(const SheetInput& in, const DayStep& step);
void add_listening_sort_words(const SheetInput& in, Composer& composer);

}  // namespace sheaf
