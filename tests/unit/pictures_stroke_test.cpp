// Our own notation for drawings, and pen strokes turned into shapes.

#include <gtest/gtest.h>

#include <cmath>

#include "pictures/drawing_notation.h"
#include "pictures/stroke_outline.h"

namespace sheaf {
namespace {

using namespace literals;

struct Xy {
  double x, y;
};

// The outline as many short lines.
using Rings = std::vector<std::vector<Xy>>;

Rings flattened(const Path& path) {
  Rings rings;
  for (const PathStep& step : path) {
    const Xy to{step.to.x.pt(), step.to.y.pt()};
    if (step.kind == PathStep::Kind::move) {
      rings.push_back({to});
    } else if (step.kind == PathStep::Kind::line) {
      rings.back().push_back(to);
    } else if (step.kind == PathStep::Kind::curve) {
      const Xy from = rings.back().back();
      const Xy a{step.control1.x.pt(), step.control1.y.pt()};
      const Xy b{step.control2.x.pt(), step.control2.y.pt()};
      for (int i = 1; i <= 100; ++i) {
        const double t = i / 100.0, u = 1 - t;
        const double p = u * u * u, q = 3 * u * u * t, r = 3 * u * t * t,
                     s = t * t * t;
        rings.back().push_back({p * from.x + q * a.x + r * b.x + s * to.x,
                                p * from.y + q * a.y + r * b.y + s * to.y});
      }
    }
  }
  return rings;
}

// How often the outline goes round a place; filled where it is not 0.
int winding(const Rings& rings, Xy at) {
  int count = 0;
  for (const std::vector<Xy>& ring : rings) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Xy a = ring[i], b = ring[(i + 1) % ring.size()];
      const double side =
          (b.x - a.x) * (at.y - a.y) - (at.x - a.x) * (b.y - a.y);
      if (a.y <= at.y && b.y > at.y && side > 0) ++count;
      if (a.y > at.y && b.y <= at.y && side < 0) --count;
    }
  }
  return count;
}

DrawnPart part_of(std::string_view line) {
  std::string why;
  auto part = read_drawn_part(line, 2_pt, why);
  EXPECT_TRUE(part) << line << ": " << why;
  return part.value_or(DrawnPart{});
}

// Compares the stroke's shape with its definition: all places no farther than
// half the pen from the drawn line.
void expect_stroke_of(std::string_view line) {
  const DrawnPart part = part_of(line);
  const Rings outline = flattened(stroke_outline(part.path, part.pen));
  Path spine = part.path;
  Rings drawn = flattened(spine);
  std::size_t rings = 0;
  for (const PathStep& step : spine) {
    if (step.kind == PathStep::Kind::move) ++rings;
    if (step.kind == PathStep::Kind::close) {
      drawn[rings - 1].push_back(drawn[rings - 1].front());
    }
  }
  const double radius = part.pen.pt() / 2;
  for (double y = 0.5; y < 100; y += 1.37) {
    for (double x = 0.5; x < 100; x += 1.37) {
      double nearest = 1e9;
      for (const auto& ring : drawn) {
        for (std::size_t i = 1; i < ring.size(); ++i) {
          const Xy a = ring[i - 1], b = ring[i];
          const double length =
              std::max(1e-9, std::hypot(b.x - a.x, b.y - a.y));
          const double t =
              std::clamp(((x - a.x) * (b.x - a.x) + (y - a.y) * (b.y - a.y)) /
                             (length * length),
                         0.0, 1.0);
          nearest = std::min(nearest, std::hypot(x - a.x - t * (b.x - a.x),
                                                 y - a.y - t * (b.y - a.y)));
        }
      }
      if (std::abs(nearest - radius) < 0.06) continue;  // too near to tell
      const int count = winding(outline, {x, y});
      EXPECT_EQ(count != 0, nearest < radius)
          << line << " at " << x << ", " << y;
      EXPECT_LE(count, 0) << line << " at " << x << ", " << y;
    }
  }
}

TEST(Stroke, StraightLines) {
  expect_stroke_of("line M 10 10 L 90 10");
  expect_stroke_of("bold M 10 90 L 90 20");
}

TEST(Stroke, Corners) {
  expect_stroke_of("bold M 10 10 L 60 10 L 60 60 L 10 80");
  expect_stroke_of("bold M 10 50 L 80 50 L 12 44");
  expect_stroke_of("bold M 10 10 L 80 10 L 50 70 Z");
  expect_stroke_of("bold M 10 10 L 50 70 L 80 10 Z");
}

TEST(Stroke, CurvesAndLoops) {
  expect_stroke_of("line circle 50 50 40");
  expect_stroke_of("bold ellipse 50 50 40 12");
  expect_stroke_of("bold rect 10 20 70 40 8");
  expect_stroke_of("bold M 10 50 C 10 0 90 100 90 50");
  expect_stroke_of("bold M 10 90 Q 50 -40 90 90");
  expect_stroke_of("line M 10 10 S 30 60 50 20 70 80 90 30");
  expect_stroke_of("line M 20 20 O 80 20 80 80 20 80");
  expect_stroke_of("bold arc 50 50 40 30 -90 180");
}

TEST(Stroke, SeveralLinesAndCrossings) {
  expect_stroke_of("bold M 10 10 L 90 90 M 10 90 L 90 10 circle 50 50 20");
}

TEST(Stroke, PointsThatRepeatDoNoHarm) {
  expect_stroke_of("bold M 10 10 L 10 10 L 60 10 L 60 10 L 60 60");
  expect_stroke_of("bold M 20 20 L 80 20 L 80 80 L 20 80 L 20 20 Z");
}

TEST(Fill, GoesRoundTheSameWayAsStrokes) {
  for (const char* line :
       {"fill M 10 10 L 90 10 L 90 90 Z", "fill M 10 10 L 90 90 L 90 10 Z",
        "fill circle 50 50 40"}) {
    const Rings shape = flattened(fill_outline(part_of(line).path));
    EXPECT_EQ(winding(shape, {60, 50}), -1) << line;
    EXPECT_EQ(winding(shape, {5, 50}), 0) << line;
  }
}

TEST(Fill, KeepsHolesThatGoTheOtherWay) {
  const Rings shape =
      flattened(fill_outline(part_of("fill M 10 10 L 90 10 L 90 90 L 10 90 Z "
                                     "M 40 40 L 40 60 L 60 60 L 60 40 Z")
                                 .path));
  EXPECT_NE(winding(shape, {20, 20}), 0);
  EXPECT_EQ(winding(shape, {50, 50}), 0);
}

TEST(Notation, ReadsCommands) {
  const Path path = part_of("line M 10 20 L 30 40 50 60 Z").path;
  ASSERT_EQ(path.size(), 4U);
  EXPECT_EQ(path[2].to, (Point{50_pt, 60_pt}));
  EXPECT_EQ(path[3].kind, PathStep::Kind::close);
  EXPECT_EQ(part_of("line M 0 0 L 1 1").pen, 2_pt);
  EXPECT_EQ(part_of("bold M 0 0 L 1 1").pen, 4_pt);
  EXPECT_EQ(part_of("fill M 0 0 L 1 1").pen, 0_pt);
}

// A quadratic curve and the cubic of the same shape meet in the middle.
TEST(Notation, QuadraticCurvesBecomeCubics) {
  const Path path = part_of("line M 0 0 Q 30 60 60 0").path;
  EXPECT_EQ(path[1].control1, (Point{20_pt, 40_pt}));
  EXPECT_EQ(path[1].control2, (Point{40_pt, 40_pt}));
}

TEST(Notation, SmoothLinesPassThroughTheirPoints) {
  const Path path = part_of("line M 10 10 S 30 50 60 20 90 80").path;
  ASSERT_EQ(path.size(), 4U);
  EXPECT_EQ(path[1].to, (Point{30_pt, 50_pt}));
  EXPECT_EQ(path[3].to, (Point{90_pt, 80_pt}));
}

TEST(Notation, ArcsEndWhereTheySay) {
  const Path path = part_of("line arc 50 50 40 20 0 90").path;
  EXPECT_EQ(path.front().to, (Point{90_pt, 50_pt}));
  EXPECT_EQ(path.back().to, (Point{50_pt, 70_pt}));
}

TEST(Notation, RefusesWhatItDoesNotKnow) {
  for (const char* line :
       {"", "line", "line L 1 2", "line M 1", "line M 1 2 L 3", "pen M 1 2",
        "line M 1 2 A 1 2 3 4 5 6 7", "line M 1 2 C 1 2 3 4 5", "line 1 2",
        "fill circle 1 2", "line M 1 2 L nan 3", "line M 1e9 2",
        "line M 1 2 L 3 4x"}) {
    std::string why;
    EXPECT_FALSE(read_drawn_part(line, 2_pt, why)) << line;
    EXPECT_FALSE(why.empty()) << line;
  }
}

}  // namespace
}  // namespace sheaf
