#include "text/font.h"
#include "text/glyph_drawing.h"
#include "text/glyph_run.h"

namespace sheaf {

Path outline_of(const GlyphRun& run) {
  const Font& font = *run.shape->font;
  const double scale =
      static_cast<double>(run.size.mils()) / font.units_per_em();
  Path path;
  for (std::size_t i = 0; i < run.shape->glyphs.size(); ++i) {
    const ShapedGlyph& glyph = run.shape->glyphs[i];
    const Point pen{
        pen_before(run, i) + at_size(font, run.size, glyph.x_offset),
        -at_size(font, run.size, glyph.y_offset)};
    append_glyph(path, font.impl().font.get(), glyph.id, scale, pen);
  }
  return path;
}

}  // namespace sheaf
