#include "preview/shapes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/error.h"

namespace sheaf {

FT_Vector in_64ths(Spot spot) {
  return {std::lround(spot.x * 64), std::lround(spot.y * 64)};
}

void Shape::add_point(Spot spot, int tag) {
  points_.push_back(in_64ths(spot));
  tags_.push_back(static_cast<Tag>(tag));
}

void Shape::end_contour() {
  if (points_.size() == begun_) return;
  ends_.push_back(points_.size() - 1);
  begun_ = points_.size();
}

void Shape::move(Spot to) {
  end_contour();
  add_point(to, FT_CURVE_TAG_ON);
}

void Shape::line(Spot to) { add_point(to, FT_CURVE_TAG_ON); }

void Shape::curve(Spot control1, Spot control2, Spot to) {
  add_point(control1, FT_CURVE_TAG_CUBIC);
  add_point(control2, FT_CURVE_TAG_CUBIC);
  add_point(to, FT_CURVE_TAG_ON);
}

void Shape::circle(Spot centre, double radius, Turn turn) {
  if (radius <= 0) return;
  // FreeType bends small curves too little; these lines are nowhere further
  // from the circle.
  constexpr double kMostOff = 0.02;  // pixels
  const double part = std::acos(std::max(0.0, 1 - kMostOff / radius));
  const int count =
      std::max(8, static_cast<int>(std::ceil(std::numbers::pi / part)));
  const double step =
      2 * std::numbers::pi / count * (turn == Turn::forth ? 1 : -1);
  for (int i = 0; i < count; ++i) {
    const Spot spot{centre.x + radius * std::cos(i * step),
                    centre.y + radius * std::sin(i * step)};
    if (i == 0) {
      move(spot);
    } else {
      line(spot);
    }
  }
  end_contour();
}

void Shape::add(FT_Stroker strokes) {
  end_contour();
  FT_UInt points = 0, contours = 0;
  check_free_type(FT_Stroker_GetCounts(strokes, &points, &contours),
                  "a line on it cannot be drawn");
  points_.resize(begun_ + points);
  tags_.resize(begun_ + points);
  short_ends_.resize(contours);
  FT_Outline tail{};
  tail.points = points_.data() + begun_;
  tail.tags = tags_.data() + begun_;
  tail.contours = short_ends_.data();
  FT_Stroker_Export(strokes, &tail);
  for (const End end : short_ends_) {
    ends_.push_back(begun_ + static_cast<std::size_t>(end));
  }
  begun_ = points_.size();
}

void Shape::clear() {
  points_.clear();
  tags_.clear();
  ends_.clear();
  begun_ = 0;
}

FT_Outline Shape::outline() {
  end_contour();
  if (points_.size() > kMostPoints) {
    throw MachineError("a page cannot be drawn: a shape on it is too detailed");
  }
  short_ends_.clear();
  for (const std::size_t end : ends_) {
    short_ends_.push_back(static_cast<End>(end));
  }
  FT_Outline outline{};
  outline.n_points = static_cast<decltype(outline.n_points)>(points_.size());
  outline.n_contours = static_cast<decltype(outline.n_contours)>(ends_.size());
  outline.points = points_.data();
  outline.tags = tags_.data();
  outline.contours = short_ends_.data();
  return outline;
}

CanvasPath on_canvas(const Path& path, Point at, const Scale& scale) {
  CanvasPath result;
  result.reserve(path.size());
  for (const PathStep& step : path) {
    result.push_back({step.kind, scale.spot(at + step.to),
                      scale.spot(at + step.control1),
                      scale.spot(at + step.control2)});
  }
  return result;
}

CanvasPath rectangle(Spot corner, Spot opposite) {
  using enum PathStep::Kind;
  return {{move, {corner.x, opposite.y}, {}, {}},
          {line, opposite, {}, {}},
          {line, {opposite.x, corner.y}, {}, {}},
          {line, corner, {}, {}},
          {close, {}, {}, {}}};
}

void add_filled(const CanvasPath& path, Shape& shape) {
  for (const CanvasStep& step : path) {
    switch (step.kind) {
      case PathStep::Kind::move:
        shape.move(step.to);
        break;
      case PathStep::Kind::line:
        shape.line(step.to);
        break;
      case PathStep::Kind::curve:
        shape.curve(step.control1, step.control2, step.to);
        break;
      case PathStep::Kind::close:
        break;  // a contour is closed anyway
    }
  }
}

}  // namespace sheaf
