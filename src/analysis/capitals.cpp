#include "analysis/capitals.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"

namespace sheaf {

namespace {

// I, I'm and the like have theirs.
bool has_its_capital(std::string_view small) {
  return small == "i" || small.starts_with("i'") || small.starts_with("i’");
}

// Larger lists have rare words that are better known as names: to josh.
constexpr int kLargestList = 35;

// A word with a capital in a list.
struct Capital {
  std::string* text;
  Span span;
  std::string small;
  bool may_be_name;
};

std::vector<Capital> capitals_in(Lesson& lesson, const Phonics& phonics) {
  std::vector<Capital> found;
  for (auto* list :
       {&lesson.words, &lesson.sort_words, &lesson.dictate_words}) {
    for (LessonWord& word : *list) {
      std::string& text = word.spelling.value;
      std::string small = lower_case(text);
      if (small == text || has_its_capital(small)) continue;
      const auto info = phonics.info(small);
      if (!info || info->name ||
          (!info->everyday && (info->tier == 0 || info->tier > kLargestList))) {
        continue;
      }
      const bool first_only = lower_case(text.substr(1)) == text.substr(1);
      found.push_back({&text, word.spelling.span, std::move(small),
                       info->also_name && first_only});
    }
  }
  return found;
}

}  // namespace

bool is_common_word(std::string_view word, const Phonics& phonics) {
  const auto info = phonics.info(word);
  return info && !info->name &&
         (info->everyday ||
          (info->tier > 0 && info->tier <= Phonics::kCommonList));
}

void put_capitals_right(Lesson& lesson, const Phonics& phonics,
                        Diagnostics& diagnostics) {
  std::vector<Capital> found = capitals_in(lesson, phonics);
  // Jack beside sock and duck is a name; beside Sock and Duck he is not.
  if (std::ranges::all_of(found, &Capital::may_be_name)) return;
  std::vector<std::string> changed;
  std::vector<Fix> fixes;
  for (Capital& word : found) {
    if (std::ranges::find(changed, *word.text) == changed.end()) {
      changed.push_back(*word.text);
    }
    // Bars between the graphemes stay where the file has them.
    fixes.push_back({word.span, lower_case(word.span.text()),
                     is_now(*word.text, word.small), true});
    *word.text = std::move(word.small);
  }
  diagnostics.note(
      diagnostic::capitals_put_right, found.front().span,
      changed.size() == 1
          ? fmt::format("{} is printed without its capital",
                        as_written(changed.front()))
          : fmt::format("{} words are printed without their capitals: {}",
                        changed.size(), fmt::join(changed, " ")),
      {"only names have capitals in a list of words", std::move(fixes)});
}

}  // namespace sheaf
