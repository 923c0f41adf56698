#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "base/byte_source.h"
#include "text/font.h"

#include <hb.h>

namespace sheaf {

/// HarfBuzz objects with owners, and what this folder alone knows of a font.

struct HbDelete {
  void operator()(hb_blob_t* blob) const { hb_blob_destroy(blob); }
  void operator()(hb_face_t* face) const { hb_face_destroy(face); }
  void operator()(hb_font_t* font) const { hb_font_destroy(font); }
  void operator()(hb_buffer_t* buffer) const { hb_buffer_destroy(buffer); }
};
template <typename T>
using HbOwner = std::unique_ptr<T, HbDelete>;

struct Font::Impl {
  HbOwner<hb_blob_t> blob;
  HbOwner<hb_face_t> face;
  HbOwner<hb_font_t> font;
  std::string family;
  std::string name;
  Outlines outlines = Outlines::truetype;
  int units_per_em = 1000;
  int ascent = 0;
  int descent = 0;
  int x_height = 0;
  int cap_height = 0;
};

/// The bytes of a font file, held as long as HarfBuzz needs them. Throws
/// std::bad_alloc where memory is lacking.
HbOwner<hb_blob_t> font_blob(KeptBytes file);

/// A checked font over `blob`; null where it cannot be used, with the reason
/// in `why` ("it is a web font").
std::unique_ptr<Font> make_font(std::string family, HbOwner<hb_blob_t> blob,
                                std::string& why);

/// Fills `buffer` with the glyphs of `text`, always the same way: left to
/// right, English, no ligatures that would join graphemes.
void shape_into(hb_buffer_t* buffer, const Font::Impl& font,
                std::string_view text, std::string_view features);

}  // namespace sheaf
