#pragma once

#include <map>
#include <unordered_map>
#include <utility>
#include <vector>

#include "preview/free_type.h"
#include "text/glyph_run.h"

namespace sheaf {

/// The letters of fonts as FreeType reads them, each read once.
class Glyphs {
 public:
  explicit Glyphs(FT_Library library) : library_(library) {}

  /// An outline in font units, y upwards.
  struct Outline {
    std::vector<FT_Vector> points;
    std::vector<std::remove_pointer_t<decltype(FT_Outline::tags)>> tags;
    std::vector<std::remove_pointer_t<decltype(FT_Outline::contours)>> ends;
  };
  /// Without points for a blank and for a glyph that the font lacks or that is
  /// damaged. Throws MachineError where the font cannot be read.
  const Outline& outline(const Font& font, std::uint32_t glyph);

 private:
  struct Face {
    FtOwner<FT_Face> face;
    std::unordered_map<std::uint32_t, Outline> outlines;
  };
  Face& face_of(const Font& font);

  FT_Library library_;
  std::map<const Font*, Face> faces_;
};

}  // namespace sheaf
