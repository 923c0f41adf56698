#include "layout/mark_bounds.h"

#include <algorithm>

namespace sheaf {

namespace {

Rect between(Point a, Point b) {
  const Point first{std::min(a.x, b.x), std::min(a.y, b.y)};
  const Point last{std::max(a.x, b.x), std::max(a.y, b.y)};
  return {first.x, first.y, last.x - first.x, last.y - first.y};
}

struct Measure {
  Rect operator()(const GlyphMark& m) const {
    const InkSpan ink = ink_of(m.run, 0, m.run.shape->text.size());
    return {m.at.x + ink.left, m.at.y, ink.width(), Length()};
  }
  Rect operator()(const LineMark& m) const { return between(m.from, m.to); }
  Rect operator()(const RectMark& m) const { return m.rect; }
  Rect operator()(const DotMark& m) const {
    const Length half = m.diameter / 2;
    return {m.centre.x - half, m.centre.y - half, m.diameter, m.diameter};
  }
  Rect operator()(const PathMark& m) const {
    if (m.path.empty()) return {m.at.x, m.at.y, Length(), Length()};
    Point least = m.path.front().to, most = least;
    for (const PathStep& step : m.path) {
      if (step.kind == PathStep::Kind::close) continue;
      least = {std::min(least.x, step.to.x), std::min(least.y, step.to.y)};
      most = {std::max(most.x, step.to.x), std::max(most.y, step.to.y)};
    }
    return between(least + m.at, most + m.at);
  }
  Rect operator()(const PictureMark& m) const { return m.box; }
};

}  // namespace

Rect bounds_of(const Mark& mark) { return std::visit(Measure{}, mark); }

}  // namespace sheaf
