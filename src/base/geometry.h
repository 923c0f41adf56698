#pragma once

#include <vector>

#include "base/length.h"

namespace sheaf {

/// Places and shapes on a page. The origin is the top left corner; y grows
/// downwards.
struct Point {
  Length x, y;
  friend constexpr Point operator+(Point a, Point b) {
    return {a.x + b.x, a.y + b.y};
  }
  friend constexpr bool operator==(Point, Point) = default;
};

struct Size {
  Length width, height;
  friend constexpr bool operator==(Size, Size) = default;
};

struct Rect {
  Length x, y, width, height;
  constexpr Length right() const { return x + width; }
  constexpr Length bottom() const { return y + height; }
  friend constexpr bool operator==(Rect, Rect) = default;
};

/// One step of an outline. `close` uses no point, `move` and `line` use `to`,
/// `curve` is a cubic Bezier that uses all three.
struct PathStep {
  enum class Kind { move, line, curve, close };
  Kind kind = Kind::move;
  Point to;
  Point control1, control2;
};

using Path = std::vector<PathStep>;

}  // namespace sheaf
