#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// What a learner wrote for one word, made comparable: lower case, accents
/// taken off, quotation marks and full stops around it left out.
struct WrittenWord {
  /// a to z; any other sign inside the word (a figure, an emoji) is one `#`.
  /// Apostrophes, hyphens and spaces are left out.
  std::string letters;
  /// As `letters`, with apostrophes (all alike) and hyphens in their places
  /// and a space where there is one.
  std::string signs;
  /// What the `#` of `letters` stand for, in order.
  std::vector<std::string> others;
  bool capital = false;  ///< the first letter is a capital
  bool all_capitals = false;

  bool blank() const { return signs.empty(); }
};

/// Any text will do, UTF-8 or not. What is longer than `kLongestWritten` signs
/// is cut off: no English word comes near it.
WrittenWord read_written(std::string_view text);
inline constexpr std::size_t kLongestWritten = 96;

/// Whether two words are the same spelling: case does not matter, apostrophes
/// and hyphens do.
bool same_spelling(std::string_view a, std::string_view b);

}  // namespace sheaf
