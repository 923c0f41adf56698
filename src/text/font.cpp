#include "text/font.h"

#include <cstdlib>

#include "base/memory_guard.h"
#include "base/utf8.h"
#include "text/font_face.h"

namespace sheaf {

Font::Font(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Font::~Font() = default;

const std::string& Font::family() const { return impl_->family; }
const std::string& Font::name() const { return impl_->name; }
Outlines Font::outlines() const { return impl_->outlines; }
int Font::units_per_em() const { return impl_->units_per_em; }
int Font::ascent() const { return impl_->ascent; }
int Font::descent() const { return impl_->descent; }
int Font::x_height() const { return impl_->x_height; }
int Font::cap_height() const { return impl_->cap_height; }

std::span<const std::byte> Font::bytes() const {
  unsigned length = 0;
  const char* data = hb_blob_get_data(impl_->blob.get(), &length);
  return std::as_bytes(std::span(data, length));
}

std::uint32_t Font::space() const {
  hb_codepoint_t glyph = 0;
  const MemoryGuard guard;
  hb_font_get_nominal_glyph(impl_->font.get(), ' ', &glyph);
  guard.check();
  return glyph;
}

bool Font::covers(std::string_view text) const {
  const MemoryGuard guard;
  bool all_nominal = true;
  for (std::size_t i = 0; i < text.size() && all_nominal;) {
    hb_codepoint_t glyph = 0;
    all_nominal = hb_font_get_nominal_glyph(impl_->font.get(),
                                            next_code_point(text, i), &glyph) &&
                  glyph != 0;
  }
  guard.check();
  if (all_nominal) return true;
  // A letter without a glyph of its own may still come out of its parts.
  const HbOwner<hb_buffer_t> buffer(hb_buffer_create());
  shape_into(buffer.get(), *impl_, text, {});
  unsigned count = 0;
  const hb_glyph_info_t* glyphs =
      hb_buffer_get_glyph_infos(buffer.get(), &count);
  for (unsigned i = 0; i < count; ++i) {
    if (glyphs[i].codepoint == 0) return false;
  }
  return true;
}

Length at_size(const Font& font, Length size, std::int64_t units) {
  const std::int64_t product = size.mils() * units;
  const std::int64_t em = font.units_per_em();
  const std::int64_t half = product < 0 ? -em / 2 : em / 2;
  return Length::from_mils((product + half) / em);
}

Length size_for_x_height(const Font& font, Length x_height) {
  const std::int64_t height = font.x_height();
  return Length::from_mils(
      (x_height.mils() * font.units_per_em() + height / 2) / height);
}

}  // namespace sheaf
