#include "text/glyph_drawing.h"

#include <cmath>
#include <new>

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
  Path& path;
  double scale;
  Point pen;
  bool out_of_memory = false;

  // HarfBuzz calls this, and nothing may be thrown through it: what it has
  // taken would not be given back.
  void add(const PathStep& step) noexcept {
    try {
      path.push_back(step);
    } catch (const std::bad_alloc&) {
      out_of_memory = true;
    }
  }

  Point point(double x, double y) const {
    return pen + Point{Length::from_mils(std::llround(x * scale)),
                       Length::from_mils(std::llround(-y * scale))};
  }
};

Drawing& drawing_of(void* data) { return *static_cast<Drawing*>(data); }

void move_to(hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x, float y,
             void*) {
  Drawing& drawing = drawing_of(data);
  drawing.add({PathStep::Kind::move, drawing.point(x, y), {}, {}});
}

void line_to(hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x, float y,
             void*) {
  Drawing& drawing = drawing_of(data);
  drawing.add({PathStep::Kind::line, drawing.point(x, y), {}, {}});
}

// A quadratic curve is the cubic whose controls stand two thirds of the way
// from its ends to its one control.
void quadratic_to(hb_draw_funcs_t*, void* data, hb_draw_state_t* state,
                  float cx, float cy, float x, float y, void*) {
  Drawing& drawing = drawing_of(data);
  const auto third = [](double end, double control) {
    return (end + 2 * control) / 3;
  };
  drawing.add(
      {PathStep::Kind::curve, drawing.point(x, y),
       drawing.point(third(state->current_x, cx), third(state->current_y, cy)),
       drawing.point(third(x, cx), third(y, cy))});
}

void cubic_to(hb_draw_funcs_t*, void* data, hb_draw_state_t*, float ax,
              float ay, float bx, float by, float x, float y, void*) {
  Drawing& drawing = drawing_of(data);
  drawing.add({PathStep::Kind::curve, drawing.point(x, y),
               drawing.point(ax, ay), drawing.point(bx, by)});
}

void close_path(hb_draw_funcs_t*, void* data, hb_draw_state_t*, void*) {
  drawing_of(data).add({PathStep::Kind::close, {}, {}, {}});
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

}  // namespace

void append_glyph(Path& path, hb_font_t* font, hb_codepoint_t glyph,
                  double scale, Point pen) {
  static const DrawFuncs funcs = make_draw_funcs();
  Drawing drawing{path, scale, pen};
  hb_font_get_glyph_shape(font, glyph, funcs.get(), &drawing);
  if (drawing.out_of_memory) throw std::bad_alloc();
}

}  // namespace sheaf
