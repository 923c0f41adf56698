#include "sheets/common_options.h"

#include <algorithm>
#include <functional>

namespace sheaf {

Ruling ruling_of(const SheetInput& input, const Style& style) {
  Ruling ruling = style.ruling;
  ruling.x_height = input.options.length("line-height");
  return ruling;
}

void order_by_length(const OptionValues& options,
                     std::vector<const AnalyzedWord*>& words) {
  if (!options.flag("longer-first")) return;
  std::ranges::stable_sort(words, std::greater(), [](const AnalyzedWord* word) {
    return word->reading.syllables();
  });
}

bool is_model_asked(const OptionValues& options, std::size_t items) {
  return options.flag("model") && items > 2;
}

CardGrid card_grid(const SheetInput& input) {
  return {.columns = input.options.count("columns"),
          .height = input.options.length("card-height"),
          .code = input.lesson.code};
}

std::vector<std::string> learner_rows(const SheetInput& input) {
  if (!input.learners.empty()) {
    return {input.learners.begin(), input.learners.end()};
  }
  return std::vector<std::string>(
      static_cast<std::size_t>(input.options.count("learners")));
}

}  // namespace sheaf
