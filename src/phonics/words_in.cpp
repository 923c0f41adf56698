#include "phonics/words_in.h"

#include "base/utf8.h"

namespace sheaf {

namespace {

bool joins_a_word(std::string_view character) {
  return character == "'" || character == "’" || character == "-";
}

bool is_letter_character(std::string_view character) {
  std::size_t offset = 0;
  return is_letter(next_code_point(character, offset));
}

}  // namespace

std::vector<WordPlace> words_in(std::string_view sentence) {
  std::vector<WordPlace> words;
  const auto parts = characters(sentence);
  const auto offset = [&](std::size_t part) {
    return static_cast<std::size_t>(parts[part].data() - sentence.data());
  };
  for (std::size_t i = 0; i < parts.size();) {
    if (!is_letter_character(parts[i])) {
      ++i;
      continue;
    }
    std::size_t end = i + 1;
    while (end < parts.size() &&
           (is_letter_character(parts[end]) ||
            (joins_a_word(parts[end]) && end + 1 < parts.size() &&
             is_letter_character(parts[end + 1])))) {
      ++end;
    }
    words.push_back({offset(i), offset(end - 1) + parts[end - 1].size()});
    i = end;
  }
  return words;
}

}  // namespace sheaf
