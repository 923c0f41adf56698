#include "pictures/stroke_outline.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace sheaf {

namespace {

// Points in thousandths, as real numbers until the end.
struct Xy {
  double x = 0, y = 0;
  friend Xy operator+(Xy a, Xy b) { return {a.x + b.x, a.y + b.y}; }
  friend Xy operator-(Xy a, Xy b) { return {a.x - b.x, a.y - b.y}; }
  friend Xy operator*(Xy a, double s) { return {a.x * s, a.y * s}; }
};

double length(Xy v) { return std::hypot(v.x, v.y); }
double dot(Xy a, Xy b) { return a.x * b.x + a.y * b.y; }
double cross(Xy a, Xy b) { return a.x * b.y - a.y * b.x; }
double angle_between(Xy a, Xy b) { return std::atan2(cross(a, b), dot(a, b)); }
Xy quarter_turn(Xy v) { return {-v.y, v.x}; }

// A cubic curve; a straight line has its controls on it.
struct Segment {
  Xy from, c1, c2, to;
  bool straight = false;

  Xy direction_at_start() const { return first_that_is_long(c1, c2, to, from); }
  Xy direction_at_end() const {
    return first_that_is_long(c2, c1, from, to) * -1;
  }
  Segment reversed() const { return {to, c2, c1, from, straight}; }
  Xy at(double t) const {
    const double u = 1 - t;
    return from * (u * u * u) + c1 * (3 * u * u * t) + c2 * (3 * u * t * t) +
           to * (t * t * t);
  }

 private:
  // The direction of length 1 from `origin` to the first point off it.
  static Xy first_that_is_long(Xy a, Xy b, Xy c, Xy origin) {
    for (const Xy point : {a, b, c}) {
      const double distance = length(point - origin);
      if (distance > 1e-3) return (point - origin) * (1 / distance);
    }
    return {1, 0};
  }
};

struct Subpath {
  std::vector<Segment> segments;
  bool closed = false;

  Subpath reversed() const {
    Subpath back{{}, closed};
    for (auto s = segments.rbegin(); s != segments.rend(); ++s) {
      back.segments.push_back(s->reversed());
    }
    return back;
  }
};

Xy real(Point p) {
  return {static_cast<double>(p.x.mils()), static_cast<double>(p.y.mils())};
}

Segment straight(Xy from, Xy to) {
  const Xy third = (to - from) * (1.0 / 3);
  return {from, from + third, to - third, to, true};
}

void add(Subpath& path, const Segment& segment) {
  const double extent = length(segment.c1 - segment.from) +
                        length(segment.c2 - segment.c1) +
                        length(segment.to - segment.c2);
  if (extent > 1) path.segments.push_back(segment);
}

std::vector<Subpath> subpaths_of(const Path& path) {
  std::vector<Subpath> result;
  Xy start, at;
  for (const PathStep& step : path) {
    switch (step.kind) {
      case PathStep::Kind::move:
        result.emplace_back();
        start = at = real(step.to);
        break;
      case PathStep::Kind::line:
        add(result.back(), straight(at, real(step.to)));
        at = real(step.to);
        break;
      case PathStep::Kind::curve:
        add(result.back(), {at, real(step.control1), real(step.control2),
                            real(step.to), false});
        at = real(step.to);
        break;
      case PathStep::Kind::close:
        add(result.back(), straight(at, start));
        result.back().closed = true;
        at = start;
        break;
    }
  }
  std::erase_if(result, [](const Subpath& s) { return s.segments.empty(); });
  return result;
}

// The part of a curve between two values of its parameter (de Casteljau).
Segment part_of(const Segment& s, double t0, double t1) {
  const auto tangent = [&](double t) {
    const double u = 1 - t;
    return ((s.c1 - s.from) * (u * u) + (s.c2 - s.c1) * (2 * u * t) +
            (s.to - s.c2) * (t * t)) *
           3;
  };
  const Xy from = s.at(t0), to = s.at(t1);
  const double third = (t1 - t0) / 3;
  return {from, from + tangent(t0) * third, to - tangent(t1) * third, to,
          false};
}

// Pieces that turn so little that a parallel curve is near enough to the cubic
// whose controls are moved along (after Tiller and Hanson, 1984).
void add_pieces(std::vector<Segment>& pieces, const Segment& s) {
  if (s.straight) {
    pieces.push_back(s);
    return;
  }
  constexpr double kTurn = std::numbers::pi / 8;
  const auto turn = [](Xy a, Xy b) {
    return length(a) > 1e-3 && length(b) > 1e-3 ? std::abs(angle_between(a, b))
                                                : 0.0;
  };
  const double whole =
      turn(s.c1 - s.from, s.c2 - s.c1) + turn(s.c2 - s.c1, s.to - s.c2);
  const int count = std::max(1, static_cast<int>(std::ceil(whole / kTurn)));
  for (int i = 0; i < count; ++i) {
    pieces.push_back(part_of(s, static_cast<double>(i) / count,
                             static_cast<double>(i + 1) / count));
  }
}

Point rounded(Xy p) {
  return {Length::from_mils(std::llround(p.x)),
          Length::from_mils(std::llround(p.y))};
}

class Outline {
 public:
  bool empty() const { return path_.empty(); }
  void move(Xy to) {
    path_.push_back({PathStep::Kind::move, rounded(to), {}, {}});
  }
  void line(Xy to) {
    if (path_.back().to == rounded(to)) return;
    path_.push_back({PathStep::Kind::line, rounded(to), {}, {}});
  }
  void segment(const Segment& s) {
    if (s.straight) {
      line(s.to);
    } else {
      path_.push_back(
          {PathStep::Kind::curve, rounded(s.to), rounded(s.c1), rounded(s.c2)});
    }
  }
  // Part of a circle: the radius `from` turned by `angle`.
  void arc(Xy centre, Xy from, double angle) {
    const int count = std::max(
        1, static_cast<int>(
               std::ceil(std::abs(angle) * 2 / std::numbers::pi - 1e-6)));
    const double step = angle / count;
    const double k = 4.0 / 3 * std::tan(step / 4);
    for (int i = 0; i < count; ++i) {
      const Xy to = {from.x * std::cos(step) - from.y * std::sin(step),
                     from.x * std::sin(step) + from.y * std::cos(step)};
      segment({centre + from, centre + from + quarter_turn(from) * k,
               centre + to - quarter_turn(to) * k, centre + to, false});
      from = to;
    }
  }
  void close() { path_.push_back({PathStep::Kind::close, {}, {}, {}}); }
  Path take() { return std::move(path_); }

 private:
  Path path_;
};

Segment parallel(const Segment& s, double distance) {
  const Xy from = s.from + quarter_turn(s.direction_at_start()) * distance;
  const Xy to = s.to + quarter_turn(s.direction_at_end()) * distance;
  const double chord = length(s.to - s.from);
  if (s.straight || chord < 1 || dot(to - from, s.to - s.from) <= 0) {
    return straight(from, to);
  }
  const double scale = length(to - from) / chord;
  return {from, from + (s.c1 - s.from) * scale, to + (s.c2 - s.to) * scale, to,
          false};
}

// Round the outer side of a corner; on the inner side by way of the corner
// itself, which keeps the overlap filled.
void join(Outline& outline, const Segment& before, const Segment& after,
          double distance) {
  const Xy a = before.direction_at_end();
  const Xy b = after.direction_at_start();
  const double angle = angle_between(a, b);
  const Xy start = after.from + quarter_turn(b) * distance;
  if (std::abs(angle) < 0.02) {
    outline.line(start);
  } else if (angle < 0) {
    outline.arc(after.from, quarter_turn(a) * distance, angle);
  } else {
    outline.line(after.from);
    outline.line(start);
  }
}

// One side of a line, from its start to its end.
void add_side(Outline& outline, const std::vector<Segment>& pieces,
              double distance) {
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (i > 0) join(outline, pieces[i - 1], pieces[i], distance);
    outline.segment(parallel(pieces[i], distance));
  }
}

Xy side_start(const std::vector<Segment>& pieces, double distance) {
  return parallel(pieces.front(), distance).from;
}

std::vector<Segment> pieces_of(const Subpath& path) {
  std::vector<Segment> pieces;
  for (const Segment& segment : path.segments) add_pieces(pieces, segment);
  return pieces;
}

void add_cap(Outline& outline, const Segment& last, double distance) {
  outline.arc(last.to, quarter_turn(last.direction_at_end()) * distance,
              -std::numbers::pi);
}

void add_loop(Outline& outline, const std::vector<Segment>& pieces,
              double distance) {
  outline.move(side_start(pieces, distance));
  add_side(outline, pieces, distance);
  join(outline, pieces.back(), pieces.front(), distance);
  outline.close();
}

void add_steps(Outline& outline, const Subpath& path) {
  outline.move(path.segments.front().from);
  for (const Segment& segment : path.segments) outline.segment(segment);
  outline.close();
}

// Twice the area, by the sign of the way round; curves by a few chords.
double signed_area(const std::vector<Subpath>& paths) {
  double area = 0;
  for (const Subpath& path : paths) {
    for (const Segment& segment : path.segments) {
      constexpr int kChords = 8;
      for (int i = 0; i < kChords; ++i) {
        area += cross(segment.at(static_cast<double>(i) / kChords),
                      segment.at(static_cast<double>(i + 1) / kChords));
      }
    }
  }
  return area;
}

}  // namespace

Path stroke_outline(const Path& path, Length pen) {
  const double distance = static_cast<double>(pen.mils()) / 2;
  Outline outline;
  for (const Subpath& subpath : subpaths_of(path)) {
    const std::vector<Segment> there = pieces_of(subpath);
    const std::vector<Segment> back = pieces_of(subpath.reversed());
    if (subpath.closed) {
      add_loop(outline, there, distance);
      add_loop(outline, back, distance);
      continue;
    }
    outline.move(side_start(there, distance));
    add_side(outline, there, distance);
    add_cap(outline, there.back(), distance);
    add_side(outline, back, distance);
    add_cap(outline, back.back(), distance);
    outline.close();
  }
  return outline.take();
}

Path fill_outline(const Path& path) {
  std::vector<Subpath> subpaths = subpaths_of(path);
  // A stroke's outline has a negative area.
  const bool turn = signed_area(subpaths) > 0;
  Outline outline;
  for (const Subpath& subpath : subpaths) {
    add_steps(outline, turn ? subpath.reversed() : subpath);
  }
  return outline.take();
}

}  // namespace sheaf
