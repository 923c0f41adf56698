// How letters are written: every letter is there, lies where its ruled lines
// ask, and is begun where teachers begin it.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "pictures/letter_strokes.h"
#include "pictures/tables.h"

namespace sheaf {
namespace {

constexpr std::string_view kLetters =
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";

std::vector<StrokePoint> points_of(const LetterStroke& stroke) {
  std::vector<StrokePoint> all;
  if (stroke.dot) all.push_back(stroke.start);
  for (const StrokeLeg& leg : stroke.legs) {
    const auto more = points_along(leg.path, 1);
    all.insert(all.end(), more.begin(), more.end());
  }
  return all;
}

double distance(StrokePoint a, StrokePoint b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

double nearest(StrokePoint p, const std::vector<StrokePoint>& others) {
  double least = 1e9;
  for (const StrokePoint o : others) least = std::min(least, distance(p, o));
  return least;
}

TEST(LetterStrokes, HasEveryLetterWithItsWords) {
  std::string fault;
  const auto shapes = read_letter_shapes(letter_strokes_table(), fault);
  EXPECT_EQ(fault, "");
  std::string found;
  for (const LetterShape& shape : shapes) found += shape.letter;
  EXPECT_EQ(found, kLetters);
  for (const LetterShape& shape : shapes) {
    EXPECT_FALSE(shape.strokes.empty()) << shape.letter;
    for (const LetterStroke& stroke : shape.strokes) {
      EXPECT_FALSE(stroke.say.empty()) << shape.letter;
      EXPECT_EQ(stroke.legs.empty(), stroke.dot) << shape.letter;
    }
  }
  EXPECT_EQ(find_letter_shape('-'), nullptr);
  EXPECT_TRUE(has_letter_shapes("a e"));
  EXPECT_FALSE(has_letter_shapes("don't"));
  EXPECT_FALSE(has_letter_shapes(""));
}

// The lines that a letter reaches: 0 the top line, 100, 200 the base line, 300.
struct Zone {
  double top, bottom;
};
Zone zone_of(char c) {
  const auto among = [&](std::string_view letters) {
    return letters.find(c) != std::string_view::npos;
  };
  if (c >= 'A' && c <= 'Z') return {0, 200};
  if (among("bdhkl")) return {0, 200};
  if (c == 'f') return {0, 200};
  if (c == 't') return {44, 200};  // not quite as tall as the others
  if (c == 'i') return {58, 200};  // its dot
  if (c == 'j') return {58, 300};
  if (among("gpqy")) return {100, 300};
  return {100, 200};
}

TEST(LetterStrokes, ReachTheLinesOfTheirZone) {
  for (const char c : kLetters) {
    const LetterShape* shape = find_letter_shape(c);
    ASSERT_NE(shape, nullptr) << c;
    double top = 1e9, bottom = -1e9, left = 1e9, right = -1e9;
    for (const LetterStroke& stroke : shape->strokes) {
      for (const StrokePoint p : points_of(stroke)) {
        top = std::min(top, p.y);
        bottom = std::max(bottom, p.y);
        left = std::min(left, p.x);
        right = std::max(right, p.x);
      }
    }
    const Zone zone = zone_of(c);
    EXPECT_NEAR(top, zone.top, 2.5) << c;
    EXPECT_NEAR(bottom, zone.bottom, 2.5) << c;
    EXPECT_NEAR(left, 0, 2.5) << c;
    EXPECT_NEAR(right, shape->width, 0.5) << c;
  }
}

// Written down before the strokes were drawn, from common practice: how often
// the pen is put down, at which line it begins, and which way it goes first.
struct Begins {
  char letter;
  int strokes;
  double y, tolerance;
  char way;  // d down, b back, r along to the right
};
constexpr Begins kBegins[] = {
    {'a', 1, 100, 25, 'b'}, {'b', 1, 0, 2, 'd'},    {'c', 1, 100, 25, 'b'},
    {'d', 1, 100, 25, 'b'}, {'e', 1, 150, 10, 'r'}, {'f', 2, 0, 20, 'b'},
    {'g', 1, 100, 25, 'b'}, {'h', 1, 0, 2, 'd'},    {'i', 2, 100, 2, 'd'},
    {'j', 2, 100, 2, 'd'},  {'k', 2, 0, 2, 'd'},    {'l', 1, 0, 2, 'd'},
    {'m', 1, 100, 2, 'd'},  {'n', 1, 100, 2, 'd'},  {'o', 1, 100, 25, 'b'},
    {'p', 1, 100, 2, 'd'},  {'q', 1, 100, 25, 'b'}, {'r', 1, 100, 2, 'd'},
    {'s', 1, 100, 25, 'b'}, {'t', 2, 50, 10, 'd'},  {'u', 1, 100, 2, 'd'},
    {'v', 1, 100, 2, 'd'},  {'w', 1, 100, 2, 'd'},  {'x', 2, 100, 2, 'd'},
    {'y', 2, 100, 2, 'd'},  {'z', 1, 100, 2, 'r'},  {'A', 3, 0, 2, 'd'},
    {'B', 1, 0, 2, 'd'},    {'C', 1, 0, 50, 'b'},   {'D', 1, 0, 2, 'd'},
    {'E', 3, 0, 2, 'd'},    {'F', 3, 0, 2, 'd'},    {'G', 1, 0, 50, 'b'},
    {'H', 3, 0, 2, 'd'},    {'I', 3, 0, 2, 'd'},    {'J', 1, 0, 2, 'd'},
    {'K', 2, 0, 2, 'd'},    {'L', 1, 0, 2, 'd'},    {'M', 1, 0, 2, 'd'},
    {'N', 1, 0, 2, 'd'},    {'O', 1, 0, 50, 'b'},   {'P', 1, 0, 2, 'd'},
    {'Q', 2, 0, 50, 'b'},   {'R', 1, 0, 2, 'd'},    {'S', 1, 0, 50, 'b'},
    {'T', 2, 0, 2, 'd'},    {'U', 1, 0, 2, 'd'},    {'V', 1, 0, 2, 'd'},
    {'W', 1, 0, 2, 'd'},    {'X', 2, 0, 2, 'd'},    {'Y', 2, 0, 2, 'd'},
    {'Z', 1, 0, 2, 'r'},
};

TEST(LetterStrokes, BeginWhereTeachersBegin) {
  EXPECT_EQ(std::size(kBegins), kLetters.size());
  for (const Begins& expected : kBegins) {
    const LetterShape* shape = find_letter_shape(expected.letter);
    ASSERT_NE(shape, nullptr);
    EXPECT_EQ(shape->strokes.size(), static_cast<std::size_t>(expected.strokes))
        << expected.letter;
    const auto points = points_of(shape->strokes.front());
    EXPECT_NEAR(points.front().y, expected.y, expected.tolerance)
        << expected.letter;
    const StrokePoint then =
        points[std::min<std::size_t>(12, points.size() - 1)];
    const double x = then.x - points.front().x;
    const double y = then.y - points.front().y;
    if (expected.way == 'd') {
      EXPECT_GT(y, std::abs(x) * 0.7) << expected.letter;
    } else if (expected.way == 'b') {
      EXPECT_LT(x, -3) << expected.letter;
    } else {
      EXPECT_GT(x, std::abs(y)) << expected.letter;
    }
  }
}

TEST(LetterStrokes, GoBackOnlyOverWhatIsThere) {
  for (const char c : kLetters) {
    std::vector<StrokePoint> there;
    for (const LetterStroke& stroke : find_letter_shape(c)->strokes) {
      for (const StrokeLeg& leg : stroke.legs) {
        const auto points = points_along(leg.path, 1);
        for (const StrokePoint p : points) {
          if (leg.back) {
            EXPECT_LT(nearest(p, there), 1.5) << c;
          }
        }
        there.insert(there.end(), points.begin(), points.end());
      }
    }
  }
}

TEST(LetterStrokes, FaultsNameTheirLine) {
  const auto fault_of = [](std::string_view text) {
    std::string fault;
    read_letter_shapes(text, fault);
    return fault;
  };
  EXPECT_EQ(fault_of("# nothing\npen M 0 0 L 1 1"),
            "line 2: no letter has begun");
  EXPECT_EQ(fault_of("letter a loop"), "line 1: `loop` is no family");
  EXPECT_EQ(fault_of("letter 7 round"), "line 1: a letter and its family");
  EXPECT_EQ(fault_of("letter a round\nletter b round"),
            "line 2: a letter without a stroke");
  EXPECT_EQ(fault_of("letter a round\nnear\n"),
            "line 2: a letter without a stroke");
  EXPECT_EQ(fault_of("letter a round\non L 3 3"),
            "line 2: no stroke has begun");
  EXPECT_EQ(fault_of("letter a round\npen L 3 3"),
            "line 2: `L` with 2 numbers");
  EXPECT_EQ(fault_of("letter i down\ndot 4"), "line 2: a dot has two numbers");
  EXPECT_EQ(fault_of("letter i down\ndot 4 5\non L 3 3"),
            "line 3: a dot does not go on");
  EXPECT_EQ(fault_of("letter i down\npen M 0 0 L 1 1\nhum"),
            "line 3: `hum` is not known");
  EXPECT_EQ(fault_of("letter i down\npen M 0 0 L 1 1\nsay down"), "");
}

}  // namespace
}  // namespace sheaf
