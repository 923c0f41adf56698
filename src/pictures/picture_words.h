#pragma once

#include <span>
#include <string_view>
#include <vector>

namespace sheaf {

/// A row of the table of words that a picture stands for: only names, so that
/// words can be chosen without drawing anything. The table was judged row by
/// row by looking at the pictures (src/data/pictures.tsv).
struct PictureWord {
  enum class Kind { glyph, drawing };

  std::string_view word;
  Kind kind = Kind::glyph;
  /// What is drawn: a character of the picture font, or the name of one of our
  /// own drawings. Two words with the same source have the same picture.
  std::string_view source;
  /// Whether most children say this word unasked; else it must be named
  /// before it is sorted by its sounds.
  bool clear = false;
  /// Other words that children say for it, parted by commas; may be empty.
  std::string_view may_say;
  /// For teachers; may be empty.
  std::string_view note;
};

/// The whole table, in the order of the alphabet (by bytes).
std::span<const PictureWord> picture_words();

/// The row of a word, whatever its case; null where no picture stands for it.
/// Only the word itself counts: `cups` does not find `cup`.
const PictureWord* find_picture_word(std::string_view word);

}  // namespace sheaf
