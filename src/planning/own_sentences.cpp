#include "planning/own_sentences.h"

#include "base/utf8.h"
#include "phonics/words_in.h"

namespace sheaf {

bool OwnSentences::add(std::string_view text) {
  if (!keys_.insert(sentence_key(text)).second) return false;
  Sentence& sentence = sentences_.emplace_back();
  sentence.text = text;
  for (const WordPlace& place : words_in(text)) {
    const std::string_view word =
        text.substr(place.begin, place.end - place.begin);
    auto known = numbers_.find(word);
    if (known == numbers_.end()) {
      const auto number = static_cast<std::uint32_t>(spellings_.size());
      known = numbers_.emplace(word, number).first;
      spellings_.emplace_back(word);
    }
    sentence.words.push_back(known->second);
  }
  return true;
}

std::string sentence_key(std::string_view text) {
  std::string key;
  for (const WordPlace& place : words_in(text)) {
    if (!key.empty()) key += ' ';
    key += lower_case(text.substr(place.begin, place.end - place.begin));
  }
  return key;
}

}  // namespace sheaf
