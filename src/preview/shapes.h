#pragma once

#include <vector>

#include "layout/page.h"
#include "preview/free_type.h"

namespace sheaf {

/// A place on the canvas, in pixels.
struct Spot {
  double x = 0, y = 0;
};

/// The same as FreeType counts.
FT_Vector in_64ths(Spot spot);

/// From places on a page to places on the canvas.
struct Scale {
  double pixels_per_mil = 0;

  double length(Length value) const {
    return static_cast<double>(value.mils()) * pixels_per_mil;
  }
  Spot spot(Point point) const { return {length(point.x), length(point.y)}; }
};

/// A shape under construction, as FreeType wants it.
class Shape {
 public:
  /// More than FreeType can count (its numbers have 15 bits).
  static constexpr std::size_t kMostPoints = 32'000;

  void move(Spot to);
  void line(Spot to);
  void curve(Spot control1, Spot control2, Spot to);
  /// A whole circle, as a contour of its own.
  /// A hole goes back the other way round.
  enum class Turn { forth, back };
  void circle(Spot centre, double radius, Turn turn = Turn::forth);
  /// All the outlines of strokes that a stroker holds.
  void add(FT_Stroker strokes);
  void clear();

  bool empty() const { return points_.empty(); }
  std::size_t size() const { return points_.size(); }
  std::size_t contours() const { return ends_.size(); }
  /// Good until the shape changes. Throws MachineError where it has more than
  /// `kMostPoints` points.
  FT_Outline outline();

 private:
  void add_point(Spot spot, int tag);
  void end_contour();

  // As the FreeType at hand has them: signed before version 2.13.3.
  using Tag = std::remove_pointer_t<decltype(FT_Outline::tags)>;
  using End = std::remove_pointer_t<decltype(FT_Outline::contours)>;

  std::vector<FT_Vector> points_;
  std::vector<Tag> tags_;
  std::vector<std::size_t> ends_;  // the last point of each contour
  std::vector<End> short_ends_;
  std::size_t begun_ = 0;  // points of finished contours
};

/// A path in pixels.
struct CanvasStep {
  PathStep::Kind kind = PathStep::Kind::move;
  Spot to, control1, control2;
};
using CanvasPath = std::vector<CanvasStep>;

CanvasPath on_canvas(const Path& path, Point at, const Scale& scale);
/// A rectangle, from its lower left corner on as in PDF, where dashes begin.
CanvasPath rectangle(Spot corner, Spot opposite);
/// Adds what a path encloses.
void add_filled(const CanvasPath& path, Shape& shape);

}  // namespace sheaf
