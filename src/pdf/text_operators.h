#pragma once

#include <array>
#include <string>
#include <unordered_map>
#include <vector>

#include "pdf/font_set.h"
#include "text/glyph_run.h"

namespace sheaf {

/// Shaped texts as text-showing operators (ISO 32000-1, 9.4.3). A text's
/// codes, and its operators if its letters stand as the font has them, are
/// worked out once for a document.
class TextOperators {
 public:
  explicit TextOperators(FontSet& fonts) : fonts_(fonts) {}

  /// The font of the run, for `Tf`.
  FontUse& font_of(const GlyphRun& run);
  /// Appends what shows the run from the current text position on; with
  /// `space_after` also a word space behind it, for those who read and copy.
  void append(std::string& out, const GlyphRun& run, bool space_after);

 private:
  // Glyphs of one cluster: what a reader must take as one piece of text if its
  // glyphs are more than its characters.
  struct Known {
    FontUse* font = nullptr;
    std::vector<Code> codes;
    /// Text to be stated outright, for glyphs [first, last).
    struct Replacement {
      std::size_t first, last;
      std::string text;
    };
    std::vector<Replacement> replacements;
    /// Whether operators do for any run of a class of sizes.
    bool has_plain = false;
    /// Those operators by class; empty until asked for.
    std::array<std::string, 3> plain;
    /// The word space of the font; 0 until asked for.
    Code space = 0;
  };
  Known& known(const ShapedText& shape);
  static Known encode(const ShapedText& shape, FontUse& font);
  static void append_space(std::string& out, Known& known);
  static void show(std::string& out, const Known& known, const GlyphRun& run);

  FontSet& fonts_;
  std::unordered_map<const ShapedText*, Known> known_;
  // What was asked for last: a run's font and its operators are asked for one
  // after the other.
  const ShapedText* last_shape_ = nullptr;
  Known* last_ = nullptr;
};

}  // namespace sheaf
