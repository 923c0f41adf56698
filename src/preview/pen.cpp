#include "preview/pen.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace sheaf {

namespace {

constexpr const char* kNoLine = "a line on it cannot be drawn";
// Where joins stand out further than this, in widths of the line, they are cut
// off: what a page of a PDF begins with.
constexpr int kMiterLimit = 10;
// FreeType keeps a row of pixels in a small pool, which a hundred dots beside
// each other fill.
constexpr std::size_t kMostDashes = 40;
// Dashes of which ten go into a pixel look like a line.
constexpr double kLeastPeriod = 0.1;

bool is_same(FT_Vector a, FT_Vector b) { return a.x == b.x && a.y == b.y; }

bool are_near(FT_Vector a, FT_Vector b) {
  return std::abs(a.x - b.x) < 2 && std::abs(a.y - b.y) < 2;
}

double distance(Spot a, Spot b) { return std::hypot(b.x - a.x, b.y - a.y); }

Spot between(Spot a, Spot b, double share) {
  return {a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share};
}

// The curve as straight lines, its first spot left out; an eighth of a pixel
// off at most where curves bend as ordinary ones do.
void add_flattened(std::vector<Spot>& spots, Spot from,
                   const CanvasStep& curve) {
  const double length = distance(from, curve.control1) +
                        distance(curve.control1, curve.control2) +
                        distance(curve.control2, curve.to);
  const int count =
      static_cast<int>(std::clamp(std::sqrt(length) * 2, 4.0, 200.0));
  for (int i = 1; i <= count; ++i) {
    const double t = static_cast<double>(i) / count;
    const double u = 1 - t;
    const double a = u * u * u, b = 3 * u * u * t, c = 3 * u * t * t,
                 d = t * t * t;
    spots.push_back({a * from.x + b * curve.control1.x + c * curve.control2.x +
                         d * curve.to.x,
                     a * from.y + b * curve.control1.y + c * curve.control2.y +
                         d * curve.to.y});
  }
}

}  // namespace

// What is drawn without the pen being lifted.
struct Pen::Part {
  Spot start;
  std::vector<CanvasStep> steps;  // lines and curves
  bool is_closed = false;

  // Whether FreeType's stroker sees no length in it, by the grid that it counts
  // in: it skips such lines, and curves whose points are next to each other,
  // and cannot end a part of which it has skipped all.
  bool is_spot() const {
    const FT_Vector begin = in_64ths(start);
    FT_Vector at = begin;
    for (const CanvasStep& step : steps) {
      const FT_Vector to = in_64ths(step.to);
      if (step.kind == PathStep::Kind::curve) {
        const FT_Vector control1 = in_64ths(step.control1);
        const FT_Vector control2 = in_64ths(step.control2);
        if (!are_near(at, control1) || !are_near(control1, control2) ||
            !are_near(control2, to)) {
          return false;
        }
      } else if (!is_same(at, to)) {
        return false;
      }
      at = to;
    }
    return !is_closed || is_same(at, begin);
  }
  std::vector<Spot> flattened() const {
    std::vector<Spot> spots = {start};
    for (const CanvasStep& step : steps) {
      if (step.kind == PathStep::Kind::curve) {
        add_flattened(spots, spots.back(), step);
      } else {
        spots.push_back(step.to);
      }
    }
    if (is_closed) spots.push_back(start);
    return spots;
  }
};

Pen::Pen(FT_Library library) {
  FT_Stroker stroker = nullptr;
  check_free_type(FT_Stroker_New(library, &stroker), kNoLine);
  stroker_.reset(stroker);
}

void Pen::draw(const CanvasPath& path, const Stroke& stroke, const Scale& scale,
               Shape& shape, const std::function<void()>& fill) {
  fill_ = &fill;
  const double radius = scale.length(stroke.width) / 2;
  const double on = scale.length(stroke.dash.on);
  const double off = scale.length(stroke.dash.off);
  // A dash of no length with round ends is a dot; with square ends it would be
  // nothing at all.
  const bool dotted = on <= 0 && off > 0;
  is_round_ = stroke.round_ends || dotted;
  const bool dashed = off > 0 && on + off >= kLeastPeriod;
  FT_Stroker_Set(stroker_.get(), std::lround(radius * 64),
                 is_round_ ? FT_STROKER_LINECAP_ROUND : FT_STROKER_LINECAP_BUTT,
                 FT_STROKER_LINEJOIN_MITER_FIXED, kMiterLimit << 16);
  Part part;
  const auto finish = [&] {
    if (part.steps.empty()) return;
    if (dashed) {
      draw_dashes(part, on, off, radius, shape);
    } else if (!part.is_spot()) {
      draw_whole(part, shape);
    } else if (is_round_) {
      shape.circle(part.start, radius);
    }
    part.steps.clear();
  };
  for (const CanvasStep& step : path) {
    switch (step.kind) {
      case PathStep::Kind::move:
        part.is_closed = false;
        finish();
        part.start = step.to;
        break;
      case PathStep::Kind::close:
        part.is_closed = true;
        finish();
        break;
      default:
        part.steps.push_back(step);
    }
  }
  part.is_closed = false;
  finish();
}

void Pen::draw_whole(const Part& part, Shape& shape) {
  FT_Stroker stroker = stroker_.get();
  FT_Stroker_Rewind(stroker);
  FT_Vector to = in_64ths(part.start);
  check_free_type(FT_Stroker_BeginSubPath(stroker, &to, !part.is_closed),
                  kNoLine);
  for (const CanvasStep& step : part.steps) {
    to = in_64ths(step.to);
    if (step.kind == PathStep::Kind::curve) {
      FT_Vector control1 = in_64ths(step.control1);
      FT_Vector control2 = in_64ths(step.control2);
      check_free_type(FT_Stroker_CubicTo(stroker, &control1, &control2, &to),
                      kNoLine);
    } else {
      check_free_type(FT_Stroker_LineTo(stroker, &to), kNoLine);
    }
  }
  check_free_type(FT_Stroker_EndSubPath(stroker), kNoLine);
  shape.add(stroker);
}

void Pen::draw_dashes(const Part& part, double on, double off, double radius,
                      Shape& shape) {
  const std::vector<Spot> spots = part.flattened();
  std::vector<Spot> dash = {part.start};
  bool is_on = true;
  double left = on;  // of the dash or the gap
  const auto turn = [&](Spot at) {
    if (is_on) {
      draw_dash(dash, radius, shape);
    } else {
      dash = {at};
    }
    is_on = !is_on;
    left = is_on ? on : off;
  };
  for (std::size_t i = 1; i < spots.size(); ++i) {
    const double length = distance(spots[i - 1], spots[i]);
    double done = 0;
    while (length - done >= left) {
      done += left;
      const Spot at = length > 0
                          ? between(spots[i - 1], spots[i], done / length)
                          : spots[i];
      if (is_on) dash.push_back(at);
      turn(at);
    }
    left -= length - done;
    if (is_on) dash.push_back(spots[i]);
  }
  if (is_on) draw_dash(dash, radius, shape);
}

void Pen::draw_dash(const std::vector<Spot>& spots, double radius,
                    Shape& shape) {
  Part part;
  part.start = spots.front();
  for (std::size_t i = 1; i < spots.size(); ++i) {
    part.steps.push_back({PathStep::Kind::line, spots[i], {}, {}});
  }
  const FT_Vector start = in_64ths(part.start);
  // FreeType draws nothing where its own grid shows no length.
  const bool is_dot = std::ranges::all_of(
      spots, [&](Spot spot) { return is_same(in_64ths(spot), start); });
  if (!is_dot) {
    draw_whole(part, shape);
  } else if (is_round_) {
    shape.circle(part.start, radius);
  }
  if (shape.size() > Shape::kMostPoints / 2 ||
      shape.contours() >= kMostDashes) {
    (*fill_)();
  }
}

}  // namespace sheaf
