#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "service/service.h"

namespace sheaf {

/// What a place in a half-written file is in, found line by line, since the
/// file can seldom be read as a whole while somebody types.
struct TextContext {
  /// The keys above the place, outermost first: {"learners", "B7"}. An item of
  /// a list that opens a key (`- sound-boxes:`) counts as one.
  std::vector<std::string> above;
  /// The key on the place's own line, if it has one.
  std::string own;
  /// The place is in a key, or where one could begin.
  bool in_key = false;
  /// A single word by itself, further in: a key of those above, or part of a
  /// value that goes on over lines.
  bool may_be_key = false;
  /// Behind `- `, where a list's item is named.
  bool in_item = false;
  bool in_comment = false;
  /// Lines under a key with `|`: plain text.
  bool in_lines = false;
  /// The word or name at the place: letters, digits, apostrophes, hyphens and
  /// underscores; empty between them.
  TextRange token;
  /// From the last comma, slash or the value's beginning up to the place,
  /// without blanks before it: what is being typed where names may have
  /// several words.
  TextRange piece;

  /// The outermost and the innermost key that the place is a value of.
  std::string_view top() const {
    return above.empty() ? std::string_view(own) : std::string_view(above[0]);
  }
  std::string_view inner() const {
    return !own.empty() || above.empty() ? std::string_view(own)
                                         : std::string_view(above.back());
  }
};

TextContext context_at(std::string_view text, std::uint32_t at);

/// A line that opens a key, as it stands in a text.
struct KeyLine {
  int indent = 0;
  bool item = false;  ///< behind `- `
  TextRange name;
  std::uint32_t begin = 0, end = 0;  ///< of the line, without its break
  /// Where its value begins on the line, and whether it has lines under `|`.
  std::uint32_t value = 0;
  bool lines = false;
};
/// All of them but those within the lines of a `|`, in order.
std::vector<KeyLine> key_lines(std::string_view text);

/// The keys of a text that stand at its left edge.
std::vector<std::string> top_keys(std::string_view text);

}  // namespace sheaf
