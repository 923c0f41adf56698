#pragma once

#include <string_view>
#include <vector>

#include "pictures/letter_strokes.h"

namespace sheaf {

/// A letter of a text with where its ink begins, in units of the letters.
struct PlacedLetter {
  const LetterShape* shape = nullptr;
  double x = 0;
};
/// The letters of a text one beside the other; blanks leave room. Each must
/// have a shape.
std::vector<PlacedLetter> placed_letters(std::string_view text);

}  // namespace sheaf
