#include "analysis/capitals.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"

namespace sheaf {

bool is_common_word(std::string_view word, const Phonics& phonics) {
  const auto info = phonics.info(word);
  return info && !info->name &&
         (info->everyday ||
          (info->tier > 0 && info->tier <= Phonics::kCommonList));
}

void put_capitals_right(Lesson& lesson, const Phonics& phonics,
                        Diagnostics& diagnostics) {
  std::vector<std::string> changed;
  Span first;
  for (auto* list : {&lesson.words, &lesson.dictate_words}) {
    for (LessonWord& word : *list) {
      std::string& text = word.spelling.value;
      std::string small = lower_case(text);
      // I, I'm and the like have theirs.
      if (small == text || small == "i" || small.starts_with("i'") ||
          small.starts_with("i’") || !is_common_word(small, phonics)) {
        continue;
      }
      if (!first) first = word.spelling.span;
      if (std::ranges::find(changed, text) == changed.end()) {
        changed.push_back(text);
      }
      text = std::move(small);
    }
  }
  if (changed.empty()) return;
  diagnostics.note(
      diagnostic::capitals_put_right, first,
      changed.size() == 1
          ? fmt::format("{} is printed without its capital",
                        quoted(changed.front()))
          : fmt::format("{} words are printed without their capitals: {}",
                        changed.size(), fmt::join(changed, " ")),
      "only names have capitals in a list of words");
}

}  // namespace sheaf
