#include <gtest/gtest.h>

#include <algorithm>

#include "files/disk_files.h"
#include "text/font_library.h"
#include "text/shaper.h"

namespace sheaf {
namespace {

class RunOutline : public testing::Test {
 protected:
  FontLibrary library{disk(), SHEAF_FONTS};
  Shaper shaper;
  const Font& font = *library.find("Andika", FontRole::regular);

  // At a size of 2048 pt a unit of the font is a point.
  GlyphRun run(std::string_view text, Length size = Length::from_pt(2048)) {
    return {&shaper.shape(font, text), size, {}, {}};
  }
};

struct Bounds {
  Length left = Length::from_mm(1e6), right = -left, top = left, bottom = -left;
};

// Of the points where strokes end: extremes of a letter's curves are among
// them, as type designers put them there.
Bounds bounds_of(const Path& path) {
  Bounds b;
  for (const PathStep& step : path) {
    if (step.kind == PathStep::Kind::close) continue;
    b.left = std::min(b.left, step.to.x);
    b.right = std::max(b.right, step.to.x);
    b.top = std::min(b.top, step.to.y);
    b.bottom = std::max(b.bottom, step.to.y);
  }
  return b;
}

std::ptrdiff_t contours(const Path& path) {
  return std::ranges::count(path, PathStep::Kind::close, &PathStep::kind);
}

TEST_F(RunOutline, CoversTheInkThatTheShaperMeasured) {
  for (const char* word : {"ship", "brush", "jelly", "x"}) {
    const GlyphRun whole = run(word);
    const Bounds b = bounds_of(outline_of(whole));
    const InkSpan ink = ink_of(whole, 0, std::string_view(word).size());
    EXPECT_NEAR(b.left.pt(), ink.left.pt(), 1.0) << word;
    EXPECT_NEAR(b.right.pt(), ink.right.pt(), 1.0) << word;
  }
}

TEST_F(RunOutline, StandsOnTheBaselineWithYDownwards) {
  const Bounds x = bounds_of(outline_of(run("x")));
  EXPECT_NEAR(x.top.pt(), -font.x_height(), 1.0);
  EXPECT_NEAR(x.bottom.pt(), 0.0, 1.0);
  EXPECT_GT(bounds_of(outline_of(run("p"))).bottom.pt(), 100.0);
}

TEST_F(RunOutline, HasAContourForEachShape) {
  EXPECT_EQ(contours(outline_of(run("l"))), 1);
  EXPECT_EQ(contours(outline_of(run("i"))), 2);
  EXPECT_EQ(contours(outline_of(run("o"))), 2);
  EXPECT_EQ(contours(outline_of(run("oil"))), 5);
  EXPECT_TRUE(outline_of(run(" ")).empty());
  EXPECT_TRUE(outline_of(run("")).empty());
}

TEST_F(RunOutline, FollowsSizeAndTracking) {
  GlyphRun wide = run("ll", Length::from_pt(20));
  const Bounds plain = bounds_of(outline_of(wide));
  wide.tracking = Length::from_pt(3);
  const Bounds tracked = bounds_of(outline_of(wide));
  EXPECT_EQ(tracked.left, plain.left);
  EXPECT_EQ(tracked.right, plain.right + Length::from_pt(3));
  EXPECT_EQ(tracked.top, plain.top);
}

}  // namespace
}  // namespace sheaf
