// Letters by their strokes: signs of a model keep off each other, dots are
// even, and the shapes are those of the typeface where they are meant to be.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "files/disk_files.h"
#include "layout/letter_model.h"
#include "layout/letter_places.h"
#include "layout/mark_bounds.h"

namespace sheaf {
namespace {

using namespace literals;

constexpr std::string_view kLetters =
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";

// Letters, and graphemes of two to four.
std::vector<std::string> texts() {
  std::vector<std::string> all;
  for (const char c : kLetters) all.emplace_back(1, c);
  for (const char* grapheme :
       {"sh",  "ch",  "th",  "ng",  "ck",  "qu", "ph", "wh", "ff",   "ll",
        "tch", "dge", "igh", "a e", "i e", "kn", "wr", "mb", "eigh", "ough",
        "air", "ee",  "oi",  "aw",  "x",   "ti", "ff", "fl", "ed",   "ing"}) {
    all.emplace_back(grapheme);
  }
  return all;
}

double distance(StrokePoint a, StrokePoint b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

struct Ink {
  std::vector<StrokePoint> points;
  std::vector<std::vector<StrokePoint>> strokes;
};

Ink ink_of_text(std::string_view text) {
  Ink ink;
  for (const PlacedLetter& letter : placed_letters(text)) {
    for (const LetterStroke& stroke : letter.shape->strokes) {
      ink.strokes.emplace_back();
      if (stroke.dot) ink.strokes.back().push_back(stroke.start);
      for (const StrokeLeg& leg : stroke.legs) {
        for (const StrokePoint p : points_along(leg.path, 2)) {
          ink.strokes.back().push_back(p);
        }
      }
      for (StrokePoint& p : ink.strokes.back()) {
        p.x += letter.x;
        ink.points.push_back(p);
      }
    }
  }
  return ink;
}

double from_box(const ModelSigns::Start& start, double width, double height,
                StrokePoint p) {
  const double x = std::max(0.0, std::abs(p.x - start.number_at.x) - width / 2);
  const double y =
      std::max(0.0, std::abs(p.y - start.number_at.y) - height / 2);
  return std::hypot(x, y);
}

// From small models with large figures to large models with small ones.
class Signs : public testing::TestWithParam<double> {};

TEST_P(Signs, NeverCoverEachOtherOrTheStartOfAStroke) {
  const double height = GetParam(), width = height * 0.8;
  for (const std::string& text : texts()) {
    const ModelSigns signs = model_signs(text, width, height);
    const Ink ink = ink_of_text(text);
    ASSERT_EQ(signs.starts.size(), ink.strokes.size()) << text;
    for (std::size_t i = 0; i < signs.starts.size(); ++i) {
      const auto& start = signs.starts[i];
      for (std::size_t k = 0; k < i; ++k) {
        EXPECT_GE(distance(start.at, signs.starts[k].at), kModelStart)
            << text << ", starts " << k << " and " << i;
      }
      if (start.number == 0) continue;
      for (const auto& other : signs.starts) {
        EXPECT_GE(from_box(start, width, height, other.at), kModelStart / 2)
            << text << ", number " << start.number << " on a start";
        if (&other == &start || other.number == 0) continue;
        EXPECT_TRUE(std::abs(other.number_at.x - start.number_at.x) >= width ||
                    std::abs(other.number_at.y - start.number_at.y) >= height)
            << text << ", two numbers";
      }
      for (const StrokePoint p : ink.points) {
        ASSERT_GE(from_box(start, width, height, p), kModelPen / 2)
            << text << ", number " << start.number << " on a stroke";
      }
      for (const auto& arrow : signs.arrows) {
        for (const StrokePoint p : arrow.way) {
          ASSERT_GE(from_box(start, width, height, p), 2)
              << text << ", number " << start.number << " on an arrow";
        }
      }
    }
    for (const auto& arrow : signs.arrows) {
      for (const StrokePoint p : arrow.way) {
        for (const auto& start : signs.starts) {
          ASSERT_GE(distance(p, start.at), kModelStart / 2 + 3) << text;
        }
        for (const StrokePoint q : ink.points) {
          ASSERT_GE(distance(p, q), kModelPen / 2 + 2) << text;
        }
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Sizes, Signs, testing::Values(14.0, 19.0, 26.0));

TEST(LetterModel, EachStrokeHasAnArrowThatGoesItsWay) {
  for (const std::string& text : texts()) {
    const ModelSigns signs = model_signs(text, 16, 20);
    const Ink ink = ink_of_text(text);
    for (std::size_t s = 0; s < ink.strokes.size(); ++s) {
      if (ink.strokes[s].size() < 2) continue;  // a dot
      EXPECT_TRUE(std::ranges::any_of(
          signs.arrows, [&](const auto& a) { return a.stroke == s; }))
          << text << ", stroke " << s;
    }
    for (const auto& arrow : signs.arrows) {
      const auto& stroke = ink.strokes[arrow.stroke];
      const StrokePoint from = arrow.way.front(), to = arrow.way.back();
      // Somewhere beside the arrow its stroke goes as it does.
      bool goes = false;
      for (std::size_t i = 4; i < stroke.size(); ++i) {
        if (distance(stroke[i], to) > 26) continue;
        const double x = stroke[i].x - stroke[i - 4].x;
        const double y = stroke[i].y - stroke[i - 4].y;
        const StrokePoint end = arrow.way[arrow.way.size() - 2];
        goes = goes || x * (to.x - end.x) + y * (to.y - end.y) > 0;
      }
      EXPECT_TRUE(goes) << text << " at " << from.x << ", " << from.y;
    }
  }
}

TEST(LetterModel, DotsAreEvenAndNeverRunIntoEachOther) {
  for (const char c : kLetters) {
    const LetterShape& shape = *find_letter_shape(c);
    const std::string text(1, c);
    for (const double pitch : {11.0, 14.0, 17.0, 24.0}) {
      const std::vector<StrokePoint> dots = stroke_dots(shape, pitch);
      for (std::size_t i = 0; i < dots.size(); ++i) {
        for (std::size_t k = 0; k < i; ++k) {
          EXPECT_GE(distance(dots[i], dots[k]), 0.65 * pitch) << c;
        }
      }
      // Nowhere is the way left without a dot.
      for (const StrokePoint p : ink_of_text(text).points) {
        const bool is_dot =
            std::ranges::any_of(shape.strokes, [&](const LetterStroke& s) {
              return s.dot && distance(s.start, p) < 1;
            });
        double least = 1e9;
        for (const StrokePoint d : dots)
          least = std::min(least, distance(p, d));
        if (!is_dot) {
          EXPECT_LE(least, 1.25 * pitch) << c;
        }
      }
    }
  }
}

TEST(LetterModel, NoRuledLineRunsThroughANumber) {
  for (const double height : {14.0, 19.0, 26.0}) {
    for (const std::string& text : texts()) {
      const ModelSigns signs = model_signs(text, height * 0.8, height);
      EXPECT_GE(signs.top, -34) << text;
      for (const auto& start : signs.starts) {
        if (start.number == 0) continue;
        for (const double line : {0.0, 100.0, 200.0, 300.0}) {
          EXPECT_GE(std::abs(start.number_at.y - line), height / 2 + 2)
              << text << ", number " << start.number;
        }
      }
    }
  }
}

TEST(LetterModel, StaysInsideItsWidth) {
  for (const std::string& text : texts()) {
    Block block;
    draw_pen_strokes(block, text, 10_mm, {}, 1_pt, kDecoration);
    const Length wide = strokes_width(text, 10_mm);
    for (const Mark& mark : block.marks) {
      const Rect at = bounds_of(mark);
      EXPECT_GE(at.x, -1_mm) << text;
      EXPECT_LE(at.right(), wide + 1_mm) << text;
      EXPECT_GE(at.y, -21_mm) << text;
      EXPECT_LE(at.bottom(), 11_mm) << text;
    }
  }
}

// Whether a point lies on a glyph, or within `slack` of its edge.
bool is_on(StrokePoint p, const std::vector<std::vector<StrokePoint>>& rings,
           double slack) {
  int winding = 0;
  for (const auto& ring : rings) {
    for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
      const StrokePoint a = ring[i], b = ring[i + 1];
      if (distance(p, a) <= slack) return true;
      if ((a.y <= p.y) == (b.y <= p.y)) continue;
      const double x = a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x);
      if (x > p.x) winding += b.y > a.y ? 1 : -1;
    }
  }
  return winding != 0;
}

TEST(LetterModel, IsTheTypefacesShapeWhereItIsMeantToBe) {
  Diagnostics diagnostics;
  FontLibrary fonts(disk(), SHEAF_FONTS);
  const Style style =
      make_style(OptionValues(page_options()), fonts, diagnostics);
  Shaper shaper;
  Document document;
  Composer composer(shaper, style, document, kDocumentElement,
                    style.body_size());
  TextStyle text = style.text(20_pt);
  text.size = size_for_x_height(*text.font, Length::from_pt(100));
  std::string near, meant;
  for (const char c : kLetters) {
    const LetterShape* shape = find_letter_shape(c);
    if (shape->near_typeface) meant += c;
    std::vector<std::vector<StrokePoint>> rings;
    double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
    Path ring;
    for (const PathStep& step :
         outline_of(composer.shape(text, std::string(1, c)))) {
      if (step.kind == PathStep::Kind::move) ring.clear();
      if (step.kind != PathStep::Kind::close) ring.push_back(step);
      if (step.kind != PathStep::Kind::close) continue;
      ring.push_back({PathStep::Kind::line, ring.front().to, {}, {}});
      rings.push_back(points_along(ring, 1));
      for (const StrokePoint p : rings.back()) {
        left = std::min(left, p.x);
        right = std::max(right, p.x);
        top = std::min(top, p.y + 200);
        bottom = std::max(bottom, p.y + 200);
      }
    }
    const Ink ink = ink_of_text(std::string_view(&c, 1));
    // Each about its own middle: how wide a letter is set is not its shape.
    const double pen = 19;
    const double wide = std::max(right - left - pen, 1.0);
    const double scale = shape->width > 4 ? wide / shape->width : 1;
    int on = 0;
    double high = 1e9, low = -1e9;
    for (StrokePoint p : ink.points) {
      high = std::min(high, p.y);
      low = std::max(low, p.y);
      p.x = (left + right) / 2 + (p.x - shape->width / 2) * scale;
      p.y -= 200;
      if (is_on(p, rings, 7)) ++on;
    }
    const double share =
        static_cast<double>(on) / static_cast<double>(ink.points.size());
    // As tall, and as long below the line: half a pen is the glyph's edge.
    const bool reaches = std::abs(top + pen / 2 - high) < 16 &&
                         std::abs(bottom - pen / 2 - low) < 16;
    if (share > 0.9 && scale > 0.75 && scale < 1.35 && reaches) near += c;
    RecordProperty(std::string("share_of_") + c, static_cast<int>(share * 100));
  }
  EXPECT_EQ(near, meant);
}

}  // namespace
}  // namespace sheaf
