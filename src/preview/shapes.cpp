#include "preview/shapes.h"

#include <cmath>
#include <limits>

#include "base/error.h"

namespace sheaf {

namespace {

FT_Vector in_64ths(Spot spot) {
  return {std::lround(spot.x * 64), std::lround(spot.y * 64)};
}

// How far the control points of a quarter circle stand out, for a radius of 1:
// 4/3 (sqrt(2) - 1), the usual approximation by a cubic curve.
constexpr double kQuarterCircle = 0.5522847498;

}  // namespace

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
  const double up = turn == Turn::forth ? radius : -radius;
  const double handle = radius * kQuarterCircle;
  const double up_handle = up * kQuarterCircle;
  const auto at = [&](double x, double y) {
    return Spot{centre.x + x, centre.y + y};
  };
  move(at(radius, 0));
  curve(at(radius, up_handle), at(handle, up), at(0, up));
  curve(at(-handle, up), at(-radius, up_handle), at(-radius, 0));
  curve(at(-radius, -up_handle), at(-handle, -up), at(0, -up));
  curve(at(handle, -up), at(radius, -up_handle), at(radius, 0));
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

CanvasPath on_canvas(const Rect& rect, const Scale& scale) {
  using enum PathStep::Kind;
  return {{move, scale.spot({rect.x, rect.bottom()}), {}, {}},
          {line, scale.spot({rect.right(), rect.bottom()}), {}, {}},
          {line, scale.spot({rect.right(), rect.y}), {}, {}},
          {line, scale.spot({rect.x, rect.y}), {}, {}},
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
