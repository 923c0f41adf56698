#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// A word of a learner's text, with what the teacher has said about it. The
/// teacher answers in braces right behind the word:
///     shep{=ship}    ship was meant
///     shep{-shop}    shop was not meant; several: shep{-shop -shape}
///     shep{-}        leave it alone, whatever it looks like (a name)
struct TextWord {
  std::size_t begin = 0;  ///< bytes of the text, without the braces
  std::size_t end = 0;
  std::string text;
  std::string meant;
  std::vector<std::string> not_meant;
  bool leave_alone = false;
  /// First of its sentence or line, where a capital says nothing.
  bool first = false;
  /// A digit stands right before or behind it: 3rd, B7, 5cm.
  bool beside_digit = false;
};

struct RunningText {
  std::vector<TextWord> words;
  /// Braces that say nothing of the above, or stand behind no word: bytes
  /// [begin, end).
  struct Place {
    std::size_t begin = 0;
    std::size_t end = 0;
  };
  std::vector<Place> unread;
};

/// Finds the words in a text typed in from a journal. Any text will do.
RunningText read_running_text(std::string_view text);

}  // namespace sheaf
