#pragma once

#include "base/geometry.h"
#include "text/font_face.h"

namespace sheaf {

/// Adds what a font draws for a glyph to a path, as cubic curves: `scale` is
/// in thousandths of a point to a font unit, `pen` the glyph's origin, y
/// downwards. A blank adds nothing. For this folder alone.
void append_glyph(Path& path, hb_font_t* font, hb_codepoint_t glyph,
                  double scale, Point pen);

}  // namespace sheaf
