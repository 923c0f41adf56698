#include "sheets/blend_words.h"

#include <algorithm>

#include "sheets/common_options.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

bool has_split(const AnalyzedWord* word) {
  return std::ranges::any_of(word->reading.units, [](const Unit& unit) {
    return unit.grapheme.find('_') != std::string::npos;
  });
}

}  // namespace

bool has_blend_model(const SheetInput& in) {
  return in.options.flag("model") && in.options.count("per-page") > 1 &&
         in.lesson.words.size() > 1;
}

std::vector<const AnalyzedWord*> blend_words(const SheetInput& in) {
  std::vector<const AnalyzedWord*> words = words_of_list(in.lesson);
  order_by_length(in.options, words);
  if (!has_blend_model(in)) return words;
  const auto shown = std::ranges::find_if(words, has_split);
  if (shown != words.end()) std::rotate(words.begin(), shown, shown + 1);
  return words;
}

}  // namespace sheaf
