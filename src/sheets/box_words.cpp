#include "sheets/box_words.h"

#include <algorithm>
#include <utility>

#include "sheets/common_options.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

// The word to look at: the first key word that the learner can see, for it
// stands on the sound card; but where there is a word with clearly fewer boxes,
// that, with a picture if any of them has one. A model is short.
const AnalyzedWord* model_word(const SheetInput& in,
                               const OptionValues& options,
                               const std::vector<const AnalyzedWord*>& words) {
  const auto heard = [&](const AnalyzedWord* word) {
    return is_box_word_heard(in, options, *word);
  };
  const AnalyzedWord* key = nullptr;
  for (const int index : in.lesson.key_words) {
    if (index < 0) continue;
    const AnalyzedWord* word =
        &in.lesson.words[static_cast<std::size_t>(index)];
    if (key == nullptr || (heard(key) && !heard(word))) key = word;
  }
  const auto shorter = [&](const AnalyzedWord* a, const AnalyzedWord* b) {
    return std::pair(a->reading.boxes(), heard(a)) <
           std::pair(b->reading.boxes(), heard(b));
  };
  const AnalyzedWord* shortest = *std::ranges::min_element(words, shorter);
  if (key == nullptr) return shortest;
  return key->reading.boxes() > shortest->reading.boxes() + 2 ? shortest : key;
}

}  // namespace

std::vector<const AnalyzedWord*> box_words(const SheetInput& in,
                                           const OptionValues& options) {
  std::vector<const AnalyzedWord*> words = mixed_words(in.lesson, "boxes");
  std::erase_if(words, [](const AnalyzedWord* w) { return !w->has_pattern(); });
  order_by_length(options, words);
  if (has_box_model(options, words.size())) {
    const auto key = std::ranges::find(words, model_word(in, options, words));
    if (key != words.end()) std::iter_swap(words.begin(), key);
  }
  keep_first(words, options.count("words"));
  return words;
}

bool is_box_word_heard(const SheetInput& in, const OptionValues& options,
                       const AnalyzedWord& word) {
  const std::string& prompt = options.choice("prompt");
  if (prompt == "word") return false;
  return prompt == "dictated" || !in.pictures.has(word.reading.word);
}

bool has_box_model(const OptionValues& options, std::size_t words) {
  const auto asked = static_cast<std::size_t>(options.count("words"));
  return is_model_asked(options, std::min(words, asked));
}

}  // namespace sheaf
