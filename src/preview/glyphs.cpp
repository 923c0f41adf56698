#include "preview/glyphs.h"

#include <new>

#include <fmt/format.h>

#include "base/error.h"
#include "text/font.h"

namespace sheaf {

Glyphs::Face& Glyphs::face_of(const Font& font) {
  Face& known = faces_[&font];
  if (known.face != nullptr) return known;
  const auto bytes = font.bytes();
  FT_Face face = nullptr;
  const FT_Error error = FT_New_Memory_Face(
      library_, reinterpret_cast<const FT_Byte*>(bytes.data()),
      static_cast<FT_Long>(bytes.size()), 0, &face);
  if (error == FT_Err_Out_Of_Memory) throw std::bad_alloc();
  if (error != FT_Err_Ok) {
    throw MachineError(
        fmt::format("a page cannot be drawn: FreeType cannot read the font {}",
                    font.name()));
  }
  known.face.reset(face);
  return known;
}

const Glyphs::Outline& Glyphs::outline(const Font& font, std::uint32_t glyph) {
  Face& face = face_of(font);
  const auto [place, is_new] = face.outlines.try_emplace(glyph);
  Outline& outline = place->second;
  if (!is_new) return outline;
  const FT_Error error = FT_Load_Glyph(face.face.get(), glyph,
                                       FT_LOAD_NO_SCALE | FT_LOAD_NO_BITMAP);
  if (error == FT_Err_Out_Of_Memory) throw std::bad_alloc();
  const FT_GlyphSlot slot = face.face->glyph;
  if (error != FT_Err_Ok || slot->format != FT_GLYPH_FORMAT_OUTLINE) {
    return outline;
  }
  const FT_Outline& read = slot->outline;
  outline.points.assign(read.points, read.points + read.n_points);
  outline.tags.assign(read.tags, read.tags + read.n_points);
  outline.ends.assign(read.contours, read.contours + read.n_contours);
  return outline;
}

}  // namespace sheaf
