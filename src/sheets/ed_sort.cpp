#include "sheets/ed_sort.h"

#include <algorithm>

#include "phonics/ed_sounds.h"
#include "sheets/word_parts.h"

namespace sheaf {

std::vector<EdColumn> ed_columns(const AnalyzedLesson& lesson) {
  const PatternCatalogue& patterns = lesson.phonics->patterns();
  const bool about_ed = std::ranges::all_of(
      lesson.patterns,
      [&](const LessonPattern& p) { return is_about_ed(patterns[p.id].id); });
  if (!about_ed || lesson.patterns.empty()) return {};
  std::vector<EdColumn> columns = {
      {.key_word = "jumped", .reason = "after a sound without voice"},
      {.key_word = "sailed", .reason = "after a sound with voice"},
      {.key_word = "landed", .reason = "after t or d, as a beat of its own"}};
  for (EdColumn& column : columns) {
    const auto key =
        lesson.phonics->first_reading(column.key_word, lesson.conventions);
    column.sound = said(lesson, key->units.back().phonemes);
  }
  for (const auto* words : {&lesson.words, &lesson.sort_words}) {
    for (const AnalyzedWord& word : *words) {
      const int sound = ed_sound(word.reading, patterns);
      if (sound < 0) continue;
      columns[static_cast<std::size_t>(sound)].words.push_back(&word);
    }
  }
  std::erase_if(columns, [](const EdColumn& c) { return c.words.empty(); });
  return columns;
}

std::string sound_before_ed(const AnalyzedLesson& lesson,
                            const AnalyzedWord& word) {
  const std::vector<Unit>& units = word.reading.units;
  if (units.size() < 2) return "";
  // Of several sounds in one grapheme (x) the last.
  return said(lesson, {units[units.size() - 2].phonemes.back()});
}

}  // namespace sheaf
