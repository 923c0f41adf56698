#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace sheaf {

/// One line of a file as the teacher sees it, for saying what is wrong with
/// its form. Places are byte offsets into the whole text.
struct FileLine {
  std::string_view source;
  std::size_t begin = 0;
  std::size_t end = 0;    ///< without the line break and the spaces before it
  std::size_t first = 0;  ///< the first character that is no space

  bool blank() const { return first == end; }
  bool comment() const { return !blank() && source[first] == '#'; }
  std::size_t indent() const { return first - begin; }
  std::string_view text() const { return source.substr(first, end - first); }
  /// Whether it begins with a dash and a space.
  bool dash() const;
  /// Where the text after the leading dashes begins.
  std::size_t content() const;
  /// Where the colon stands that makes a key of what is before it.
  std::optional<std::size_t> colon() const;
  /// Where the value after that colon begins; `end` if there is none.
  std::size_t value() const;
};

/// The line that the byte at `at` belongs to.
FileLine line_around(std::string_view source, std::size_t at);
/// The nearest line above that is neither blank nor a comment, if any.
std::optional<FileLine> line_above(const FileLine& line);

}  // namespace sheaf
