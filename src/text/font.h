#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "text/glyph_run.h"

namespace sheaf {

/// How a font draws its letters; decides how a PDF holds it.
enum class Outlines { truetype, cff };

/// One face of a typeface, loaded and checked: it has outlines for the letters
/// a to z and its maker allows it to stand in a document. Lengths are in font
/// units. Owned by a `FontLibrary`; everything else holds plain pointers.
class Font {
 public:
  ~Font();
  Font(const Font&) = delete;
  Font& operator=(const Font&) = delete;

  const std::string& family() const;
  /// PostScript name, for the PDF: letters, digits, `-` and `_` only.
  const std::string& name() const;
  std::span<const std::byte> bytes() const;
  Outlines outlines() const;
  int units_per_em() const;
  int ascent() const;    ///< above the baseline, positive
  int descent() const;   ///< below the baseline, positive
  int x_height() const;  ///< measured on the glyph x; tables can be wrong
  int cap_height() const;
  /// Whether the face has a glyph for every character of the text.
  bool covers(std::string_view text) const;
  /// The glyph of the word space; 0 where the face has none.
  std::uint32_t space() const;

  struct Impl;
  explicit Font(std::unique_ptr<Impl> impl);
  const Impl& impl() const { return *impl_; }

 private:
  std::unique_ptr<Impl> impl_;
};

/// `units` of the font's grid at a type size, rounded to the nearest.
Length at_size(const Font& font, Length size, std::int64_t units);
/// The type size at which small letters are `x_height` tall.
Length size_for_x_height(const Font& font, Length x_height);

}  // namespace sheaf
