#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

namespace sheaf {

/// The words of a sentence, without the signs around them, as bytes
/// [begin, end) of its text. An apostrophe or hyphen inside a word belongs to
/// it.
struct WordPlace {
  std::size_t begin, end;
};
std::vector<WordPlace> words_in(std::string_view sentence);

}  // namespace sheaf
