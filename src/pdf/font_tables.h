#pragma once

#include <cstdint>
#include <string_view>

#include "text/font.h"

namespace sheaf {

/// The tables of a TrueType or OpenType file, read in place (OpenType
/// specification, "Organization of an OpenType Font"). Nothing is allocated,
/// so nothing can run out of memory half-way; what is not there reads as
/// nothing or 0.
class FontTables {
 public:
  explicit FontTables(const Font& font);
  explicit FontTables(std::string_view file);

  /// `tag` has four letters ("hmtx").
  std::string_view table(std::string_view tag) const;
  /// The advance of a glyph in font units.
  std::int32_t advance(std::uint32_t glyph) const;
  /// Whether a TrueType font draws anything for a glyph.
  bool has_outline(std::uint32_t glyph) const;

 private:
  std::string_view file_;
  std::size_t directory_ = 0;
  std::string_view metrics_, locations_;
  bool has_long_locations_ = false;
  std::uint32_t metric_count_ = 0;
};

std::uint32_t read_u16(std::string_view bytes, std::size_t at);
std::int32_t read_i16(std::string_view bytes, std::size_t at);

}  // namespace sheaf
