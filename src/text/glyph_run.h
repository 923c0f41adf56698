#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/geometry.h"
#include "base/length.h"

namespace sheaf {

class Font;

/// One glyph of a shaped text, in font units (y upwards, as fonts have it).
struct ShapedGlyph {
  std::uint32_t id = 0;
  std::int32_t advance = 0;
  std::int32_t x_offset = 0;
  std::int32_t y_offset = 0;
  /// What is inked, relative to the glyph's own origin; all 0 for a space.
  std::int32_t ink_left = 0, ink_right = 0, ink_top = 0, ink_bottom = 0;
  /// The bytes of the text that it shows: what a reader of the PDF gets when
  /// copying it. Empty where another glyph of its cluster has them.
  std::uint32_t text_begin = 0;
  std::uint32_t text_end = 0;
  /// The first byte of the cluster that it belongs to: the smallest stretch of
  /// the text that the font turns into glyphs as one.
  std::uint32_t cluster = 0;
  /// What stands before it: advances, characters as people count them (a
  /// letter with its marks is one) and word spaces.
  std::int64_t pen = 0;
  std::uint32_t characters_before = 0;
  std::uint32_t spaces_before = 0;
};

/// A text as glyphs of one font, whatever its size. Made and owned by the
/// shaper's cache, which outlives all pages; shared by every use of the text.
struct ShapedText {
  const Font* font = nullptr;
  std::string text;
  std::vector<ShapedGlyph> glyphs;
  std::int64_t advance = 0;
  std::uint32_t characters = 0;
  std::uint32_t spaces = 0;
};

/// A shaped text at a size.
struct GlyphRun {
  const ShapedText* shape = nullptr;
  Length size;
  /// Added after every character but the last.
  Length tracking;
  /// Added to every word space besides.
  Length word_gap;
  /// Room from the run's end to where its word goes on in another run: no part
  /// of its width, but what it says must not break there (a PDF reader takes a
  /// move of the pen for a blank between words).
  Length room_after;
};

/// From the origin of the first glyph to the end of the last advance.
Length width_of(const GlyphRun& run);
/// Where the pen stands before glyph `index`, from the run's origin; for the
/// index after the last one, the run's width.
Length pen_before(const GlyphRun& run, std::size_t index);

/// What the ink of some text covers, sideways, from the run's origin.
struct InkSpan {
  Length left, right;
  Length width() const { return right - left; }
  Length middle() const { return (left + right) / 2; }
};
/// The ink of bytes [begin, end) of the run's text. Part of a ligature has its
/// share by characters; text without ink has the pen's place and no width.
InkSpan ink_of(const GlyphRun& run, std::size_t begin, std::size_t end);

/// The run's letters as outlines, from the run's origin on the baseline, y
/// downwards: to be drawn, not read. Whoever draws them says in the element
/// what they spell.
Path outline_of(const GlyphRun& run);

}  // namespace sheaf
