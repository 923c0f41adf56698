#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/value.h"

namespace sheaf {

/// A text that the YAML library has read, laid back over the file: the library
/// says only where a text begins, and a quoted or folded one is longer in the
/// file than in memory.
struct LaidText {
  PlacedText text;
  Value::Style style = Value::Style::bare;
  /// Where the text is over, closing quote included.
  std::size_t end = 0;
};

/// Finds the place of each byte of `value`. `source` is the text that the
/// library was given, `at` where it saw the value begin (at its quote, at the
/// `|`). Nothing where the two cannot be matched.
std::optional<LaidText> lay_text(const SourceFile& file,
                                 std::string_view source, std::size_t at,
                                 std::string value);

/// The first place from `at` on that is no space, line break or comment.
std::size_t skip_blank(std::string_view source, std::size_t at);

}  // namespace sheaf
