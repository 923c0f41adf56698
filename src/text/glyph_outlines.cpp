#include "text/glyph_outlines.h"

#include <cmath>

#include "base/error.h"
#include "text/font_face.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

struct DrawDelete {
  void operator()(hb_draw_funcs_t* funcs) const {
    hb_draw_funcs_destroy(funcs);
  }
};
using DrawFuncs = std::unique_ptr<hb_draw_funcs_t, DrawDelete>;

// What HarfBuzz's drawing calls fill. Points come in font units, y upwards.
struct Drawing {
  Path path;
  double scale = 1;  // thousandths of a point to a font unit

  Point point(double x, double y) const {
    return {Length::from_mils(std::llround(x * scale)),
            Length::from_mils(std::llround(-y * scale))};
  }
};

Drawing& drawing_of(void* data) { return *static_cast<Drawing*>(data); }

void move_to(hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x, float y,
             void*) {
  Drawing& drawing = drawing_of(data);
  drawing.path.push_back({PathStep::Kind::move, drawing.point(x, y), {}, {}});
}

void line_to(hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x, float y,
             void*) {
  Drawing& drawing = drawing_of(data);
  drawing.path.push_back({PathStep::Kind::line, drawing.point(x, y), {}, {}});
}

// A quadratic curve is the cubic whose controls stand two thirds of the way
// from its ends to its one control.
void quadratic_to(hb_draw_funcs_t*, void* data, hb_draw_state_t* state,
                  float cx, float cy, float x, float y, void*) {
  Drawing& drawing = drawing_of(data);
  const auto third = [](double end, double control) {
    return (end + 2 * control) / 3;
  };
  drawing.path.push_back(
      {PathStep::Kind::curve, drawing.point(x, y),
       drawing.point(third(state->current_x, cx), third(state->current_y, cy)),
       drawing.point(third(x, cx), third(y, cy))});
}

void cubic_to(hb_draw_funcs_t*, void* data, hb_draw_state_t*, float ax,
              float ay, float bx, float by, float x, float y, void*) {
  Drawing& drawing = drawing_of(data);
  drawing.path.push_back({PathStep::Kind::curve, drawing.point(x, y),
                          drawing.point(ax, ay), drawing.point(bx, by)});
}

void close_path(hb_draw_funcs_t*, void* data, hb_draw_state_t*, void*) {
  drawing_of(data).path.push_back({PathStep::Kind::close, {}, {}, {}});
}

DrawFuncs make_draw_funcs() {
  DrawFuncs funcs(hb_draw_funcs_create());
  hb_draw_funcs_set_move_to_func(funcs.get(), move_to, nullptr, nullptr);
  hb_draw_funcs_set_line_to_func(funcs.get(), line_to, nullptr, nullptr);
  hb_draw_funcs_set_quadratic_to_func(funcs.get(), quadratic_to, nullptr,
                                      nullptr);
  hb_draw_funcs_set_cubic_to_func(funcs.get(), cubic_to, nullptr, nullptr);
  hb_draw_funcs_set_close_path_func(funcs.get(), close_path, nullptr, nullptr);
  hb_draw_funcs_make_immutable(funcs.get());
  return funcs;
}

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
  DrawFuncs funcs = make_draw_funcs();
};

GlyphOutlines::GlyphOutlines(const std::string& path)
    : impl_(std::make_unique<Impl>()) {
  const HbOwner<hb_blob_t> blob(hb_blob_create_from_file_or_fail(path.c_str()));
  if (!blob) throw MachineError(fmt::format("cannot read the font {}", path));
  impl_->face.reset(hb_face_create(blob.get(), 0));
  if (hb_face_count(blob.get()) == 0 ||
      hb_face_get_glyph_count(impl_->face.get()) == 0) {
    throw MachineError(fmt::format("{} is not a font, or is damaged", path));
  }
  impl_->font.reset(hb_font_create(impl_->face.get()));
  hb_font_make_immutable(impl_->font.get());
}

GlyphOutlines::~GlyphOutlines() = default;

int GlyphOutlines::units_per_em() const {
  return static_cast<int>(hb_face_get_upem(impl_->face.get()));
}

std::optional<Path> GlyphOutlines::outline(std::string_view text,
                                           Length size) const {
  const hb_codepoint_t glyph = single_glyph(impl_->font.get(), text);
  if (glyph == 0) return std::nullopt;
  Drawing drawing;
  drawing.scale = static_cast<double>(size.mils()) / units_per_em();
  hb_font_get_glyph_shape(impl_->font.get(), glyph, impl_->funcs.get(),
                          &drawing);
  if (drawing.path.empty()) return std::nullopt;
  return std::move(drawing.path);
}

}  // namespace sheaf
