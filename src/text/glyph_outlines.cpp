#include "text/glyph_outlines.h"

#include "base/error.h"
#include "base/memory_guard.h"
#include "text/font_face.h"
#include "text/glyph_drawing.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

// The one glyph that the font has for a text; 0 where there is none or more.
// Joined sequences (a person and a tool, say) become one glyph in shaping.
hb_codepoint_t single_glyph(hb_font_t* font, std::string_view text) {
  HbOwner<hb_buffer_t> buffer(hb_buffer_create());
  hb_buffer_add_utf8(buffer.get(), text.data(), static_cast<int>(text.size()),
                     0, static_cast<int>(text.size()));
  hb_buffer_set_direction(buffer.get(), HB_DIRECTION_LTR);
  hb_buffer_set_script(buffer.get(), HB_SCRIPT_COMMON);
  hb_buffer_set_language(buffer.get(), hb_language_from_string("en", -1));
  hb_buffer_set_flags(buffer.get(), HB_BUFFER_FLAG_REMOVE_DEFAULT_IGNORABLES);
  hb_shape(font, buffer.get(), nullptr, 0);
  unsigned count = 0;
  const hb_glyph_info_t* glyphs =
      hb_buffer_get_glyph_infos(buffer.get(), &count);
  return count == 1 ? glyphs[0].codepoint : 0;
}

}  // namespace

struct GlyphOutlines::Impl {
  HbOwner<hb_face_t> face;
  HbOwner<hb_font_t> font;
};

GlyphOutlines::GlyphOutlines(KeptBytes file, std::string_view name)
    : impl_(std::make_unique<Impl>()) {
  const HbOwner<hb_blob_t> blob = font_blob(std::move(file));
  const MemoryGuard guard;
  impl_->face.reset(hb_face_create(blob.get(), 0));
  if (hb_face_count(blob.get()) == 0 ||
      hb_face_get_glyph_count(impl_->face.get()) == 0) {
    guard.check();
    throw MachineError(fmt::format("{} is not a font, or is damaged", name));
  }
  impl_->font.reset(hb_font_create(impl_->face.get()));
  hb_font_make_immutable(impl_->font.get());
  guard.check();
}

GlyphOutlines::~GlyphOutlines() = default;

int GlyphOutlines::units_per_em() const {
  return static_cast<int>(hb_face_get_upem(impl_->face.get()));
}

std::optional<Path> GlyphOutlines::outline(std::string_view text,
                                           Length size) const {
  const MemoryGuard guard;
  const hb_codepoint_t glyph = single_glyph(impl_->font.get(), text);
  guard.check();
  if (glyph == 0) return std::nullopt;
  Path path;
  append_glyph(path, impl_->font.get(), glyph,
               static_cast<double>(size.mils()) / units_per_em(), {});
  if (path.empty()) return std::nullopt;
  return path;
}

}  // namespace sheaf
