#include "driver/sort_words.h"

#include <algorithm>

#include "sheets/sound_sort.h"

namespace sheaf {

SortWords picture_sort_words(const PreparedLesson& lesson) {
  SortWords words;
  const auto& sheets = lesson.layout.sheets;
  const auto sheet = std::ranges::find_if(
      sheets, [](const auto& s) { return s.kind->name == "picture-sort"; });
  if (sheet == sheets.end()) return words;
  SheetMemory memory;
  const SheetInput input{
      lesson.analyzed, sheet->options, *lesson.pictures, memory, {}};
  const SoundSort& sort = sound_sort(input, sheet->options.count("pictures"));
  if (!sort.missing.empty()) return words;
  const int last = static_cast<int>(sort.columns.size()) - 1;
  for (const auto& [word, column] : sort.chosen) {
    (column == last ? words.other : words.same).push_back(word);
  }
  return words;
}

}  // namespace sheaf
