#pragma once

#include <array>
#include <functional>
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

  /// What is in force where a text is shown, for `Tf`.
  struct State {
    const FontUse* font = nullptr;
    Length size;
  };
  /// Appends what shows the run from the current text position on; with
  /// `space_after` also a word space behind it, for those who read and copy.
  void append(std::string& out, const GlyphRun& run, State& state,
              bool space_after);

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
    /// What the last glyph stands for.
    std::string last_text;
    /// The word space of the font; 0 until asked for.
    Code space = 0;
  };
  // A shaped text in a font with wider advances is another text.
  struct Key {
    const ShapedText* shape = nullptr;
    const FontUse* font = nullptr;
    bool operator==(const Key&) const = default;
  };
  struct KeyHash {
    std::size_t operator()(const Key& key) const {
      const std::hash<const void*> hash;
      return hash(key.shape) * 31 ^ hash(key.font);
    }
  };
  Known& known(const ShapedText& shape, FontUse& font);
  static Known encode(const ShapedText& shape, FontUse& font);
  static void append_space(std::string& out, Known& known, Length size,
                           State& state);
  void show(std::string& out, const Known& known, const GlyphRun& run,
            State& state);
  FontUse& font_to_the_next(const GlyphRun& run, const FontUse& font,
                            std::int32_t width);

  FontSet& fonts_;
  std::unordered_map<Key, Known, KeyHash> known_;
};

}  // namespace sheaf
