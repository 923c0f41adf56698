#pragma once

#include <string_view>

namespace sheaf {

/// a, e, i, o, u, and y, which is one where no vowel stands beside it.
constexpr bool is_vowel_letter(char c) {
  return std::string_view("aeiouy").find(c) != std::string_view::npos;
}

/// The same without y.
constexpr bool is_full_vowel_letter(char c) {
  return c != 'y' && is_vowel_letter(c);
}

}  // namespace sheaf
