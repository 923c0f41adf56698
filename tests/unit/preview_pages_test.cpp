// What marks leave on a page of pixels: ink where it must be, and nowhere else.
// At 72 dots an inch a pixel is a point.

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "base/error.h"
#include "files/disk_files.h"
#include "preview/preview.h"
#include "text/font_library.h"
#include "text/shaper.h"

namespace sheaf {
namespace {

using namespace literals;

Page page_of(Length width, Length height, std::vector<Mark> marks) {
  Page page;
  page.size = {width, height};
  page.marks = std::move(marks);
  return page;
}

PreviewImage drawn(std::vector<Mark> marks, int dpi = 72) {
  return draw_page(page_of(20_pt, 20_pt, std::move(marks)), {.dpi = dpi});
}

int at(const PreviewImage& image, int x, int y) {
  return image.pixels[static_cast<std::size_t>(y * image.width + x)];
}

// How many black pixels' worth of ink lies in a part of the page.
double ink(const PreviewImage& image, int left, int top, int right,
           int bottom) {
  double sum = 0;
  for (int y = top; y < bottom; ++y) {
    for (int x = left; x < right; ++x) sum += (255 - at(image, x, y)) / 255.0;
  }
  return sum;
}
double ink(const PreviewImage& image) {
  return ink(image, 0, 0, image.width, image.height);
}

constexpr Stroke kThick{2_pt};

TEST(Preview, ALineCoversItsWidthAndNothingElse) {
  const auto image = drawn({LineMark{{3_pt, 10_pt}, {17_pt, 10_pt}, kThick}});
  ASSERT_EQ(image.width, 20);
  ASSERT_EQ(image.height, 20);
  for (int y = 0; y < 20; ++y) {
    for (int x = 0; x < 20; ++x) {
      const bool on_line = x >= 3 && x < 17 && (y == 9 || y == 10);
      EXPECT_EQ(at(image, x, y), on_line ? 0 : 255) << x << ", " << y;
    }
  }
}

TEST(Preview, AThinRuleStandsInOneRowAndKeepsItsWeight) {
  // Half a point, across the border of two rows: 9.95 to 10.45.
  const auto image =
      drawn({LineMark{{0_pt, 10.2_pt}, {20_pt, 10.2_pt}, {0.5_pt}}});
  EXPECT_NEAR(at(image, 5, 10), 128, 2);
  EXPECT_EQ(at(image, 5, 9), 255);
  EXPECT_EQ(at(image, 5, 11), 255);
}

TEST(Preview, ASlantedLineHasItsArea) {
  const auto image = drawn({LineMark{{4_pt, 4_pt}, {16_pt, 16_pt}, kThick}});
  EXPECT_NEAR(ink(image), 2 * 12 * std::sqrt(2.0), 0.3);
  EXPECT_EQ(at(image, 10, 10), 0);
  EXPECT_EQ(at(image, 14, 6), 255);
}

TEST(Preview, DashesBeginAtTheStart) {
  const Stroke dashed{2_pt, kBlack, {4_pt, 3_pt}};
  const auto image = drawn({LineMark{{2_pt, 10_pt}, {18_pt, 10_pt}, dashed}});
  for (int x = 0; x < 20; ++x) {
    const int along = x - 2;
    const bool on = along >= 0 && along < 16 && along % 7 < 4;
    EXPECT_EQ(at(image, x, 9), on ? 0 : 255) << x;
  }
}

// A dash of no length is a round dot, whatever the ends.
TEST(Preview, DashesWithoutLengthAreDots) {
  const Stroke dotted{4_pt, kBlack, {0_pt, 8_pt}};
  const auto image = drawn({LineMark{{2_pt, 10_pt}, {18_pt, 10_pt}, dotted}});
  const double dot = 3.14159 * 4;
  EXPECT_NEAR(ink(image), 3 * dot, 0.5);
  EXPECT_NEAR(ink(image, 8, 8, 12, 12), dot, 0.2);
  EXPECT_EQ(ink(image, 5, 0, 7, 20), 0);
}

TEST(Preview, RoundEndsStandOutAndSquareOnesDoNot) {
  const auto length = [](bool round) {
    return ink(drawn(
        {LineMark{{6_pt, 10_pt}, {14_pt, 10_pt}, {4_pt, kBlack, {}, round}}}));
  };
  EXPECT_NEAR(length(false), 32, 0.1);
  // FreeType flattens the ends a little.
  EXPECT_NEAR(length(true), 32 + 3.14159 * 4, 0.4);
}

TEST(Preview, ALineOfNoLengthIsADotOnlyWithRoundEnds) {
  const auto spot = [](bool round) {
    return ink(drawn(
        {LineMark{{10_pt, 10_pt}, {10_pt, 10_pt}, {4_pt, kBlack, {}, round}}}));
  };
  EXPECT_EQ(spot(false), 0);
  EXPECT_NEAR(spot(true), 3.14159 * 4, 0.2);
}

// Less than FreeType's grid shows: a line and a curve, open and closed.
TEST(Preview, APathOfNextToNoLengthIsADotOnlyWithRoundEnds) {
  using enum PathStep::Kind;
  constexpr Length kHair = Length::from_mils(1);
  for (const bool curved : {false, true}) {
    for (const bool closed : {false, true}) {
      PathMark mark;
      mark.path = {{move, {10_pt, 10_pt}, {}, {}}};
      const Point end = {10_pt + kHair, 10_pt};
      mark.path.push_back(curved ? PathStep{curve, end, {10_pt, 10_pt}, end}
                                 : PathStep{line, end, {}, {}});
      if (closed) mark.path.push_back({close, {}, {}, {}});
      mark.stroke = {4_pt};
      EXPECT_EQ(ink(drawn({mark})), 0);
      mark.stroke.round_ends = true;
      EXPECT_NEAR(ink(drawn({mark})), 3.14159 * 4, 0.2);
    }
  }
}

TEST(Preview, ARectangleHasSharpCornersAndItsFill) {
  RectMark box;
  box.rect = {4_pt, 5_pt, 10_pt, 8_pt};
  box.filled = true;
  box.fill = 200;
  box.stroke = kThick;
  const auto image = drawn({box});
  EXPECT_EQ(at(image, 3, 4), 0);    // the outer corner
  EXPECT_EQ(at(image, 14, 13), 0);  // the one across
  EXPECT_EQ(at(image, 2, 4), 255);
  EXPECT_EQ(at(image, 9, 9), 200);
  EXPECT_EQ(at(image, 15, 9), 255);
  box.stroked = false;
  const auto bare = drawn({box});
  EXPECT_NEAR(ink(bare), 80 * 55 / 255.0, 0.01);
}

TEST(Preview, DotsAreRoundAndHollowOnesAreRings) {
  DotMark dot{{10_pt, 10_pt}, 8_pt};
  EXPECT_NEAR(ink(drawn({dot})), 3.14159 * 16, 0.3);
  dot.hollow = true;
  dot.ring = 1_pt;
  const auto ring = drawn({dot});
  EXPECT_NEAR(ink(ring), 3.14159 * (16 - 9), 0.3);
  EXPECT_EQ(at(ring, 10, 10), 255);
  EXPECT_EQ(at(ring, 2, 2), 255);
}

// By the non-zero rule: what goes round twice the same way is no hole.
TEST(Preview, PathsAreFilledByTheNonZeroRule) {
  const auto square = [](Length from, Length to, bool back) {
    using enum PathStep::Kind;
    Path path = {{move, {from, from}, {}, {}},
                 {line, {back ? from : to, back ? to : from}, {}, {}},
                 {line, {to, to}, {}, {}},
                 {line, {back ? to : from, back ? from : to}, {}, {}},
                 {close, {}, {}, {}}};
    return path;
  };
  for (const bool is_hole : {false, true}) {
    Path path = square(4_pt, 16_pt, false);
    const Path inner = square(8_pt, 12_pt, is_hole);
    path.insert(path.end(), inner.begin(), inner.end());
    PathMark mark;
    mark.path = path;
    mark.filled = true;
    mark.stroked = false;
    EXPECT_NEAR(ink(drawn({mark})), is_hole ? 144 - 16 : 144, 0.01);
  }
}

TEST(Preview, CurvesAreStrokedAndDashed) {
  using enum PathStep::Kind;
  PathMark arc;  // half a circle of radius 6
  arc.path = {{move, {4_pt, 10_pt}, {}, {}},
              {curve, {16_pt, 10_pt}, {4_pt, 2_pt}, {16_pt, 2_pt}}};
  arc.stroke = {1_pt};
  const double whole = ink(drawn({arc}));
  EXPECT_NEAR(whole, 18.5, 1);
  arc.stroke.dash = {1_pt, 1_pt};
  EXPECT_NEAR(ink(drawn({arc})), whole / 2, 1);
}

TEST(Preview, LaterMarksLieOverEarlierOnes) {
  RectMark black, white;
  black.rect = {0_pt, 0_pt, 20_pt, 20_pt};
  black.filled = true;
  black.fill = kBlack;
  black.stroked = false;
  white = black;
  white.rect = {5_pt, 5_pt, 5_pt, 5_pt};
  white.fill = kWhite;
  const auto image = drawn({black, white});
  EXPECT_EQ(ink(image), 400 - 25);
}

TEST(Preview, MarksBesideThePaperAreCutOff) {
  DotMark outside{{-50_pt, 10_pt}, 8_pt};
  LineMark across{{-500_pt, 10_pt}, {500_pt, 10_pt}, kThick};
  const auto image = drawn({outside, across});
  EXPECT_EQ(ink(image), 40);
}

TEST(Preview, LettersStandOnTheirLine) {
  FontLibrary fonts(disk(), SHEAF_FONTS);
  Shaper shaper;
  const Font& font = *fonts.find("Andika", FontRole::regular);
  GlyphMark text;
  text.run = {&shaper.shape(font, "HH"), 24_pt};
  text.run.tracking = 6_pt;
  text.at = {4_pt, 30_pt};
  const Page page = page_of(60_pt, 40_pt, {text});
  const auto image = draw_page(page, {.dpi = 288});  // four pixels a point
  // From the height of a capital down to the line, and nowhere else.
  const double top = 30 - at_size(font, 24_pt, font.cap_height()).pt();
  EXPECT_EQ(ink(image, 0, 0, image.width, static_cast<int>(top * 4)), 0);
  EXPECT_EQ(ink(image, 0, 30 * 4, image.width, image.height), 0);
  EXPECT_GT(ink(image, 0, 29 * 4, image.width, 30 * 4), 20);
  // Sideways, where the layout has it: each letter's ink, and the gap.
  const auto pixel = [](Length x) { return x.pt() * 4; };
  for (const std::size_t letter : {0U, 1U}) {
    const InkSpan span = ink_of(text.run, letter, letter + 1);
    const double left = pixel(text.at.x + span.left);
    const double right = pixel(text.at.x + span.right);
    const int begin = static_cast<int>(std::floor(left));
    const int end = static_cast<int>(std::ceil(right));
    EXPECT_EQ(ink(image, begin - 4, 0, begin, image.height), 0);
    EXPECT_GT(ink(image, begin, 0, begin + 3, image.height), 60);
    EXPECT_GT(ink(image, end - 3, 0, end, image.height), 60);
    EXPECT_EQ(ink(image, end, 0, end + 4, image.height), 0);
  }
  text.ink = 128;
  const auto tinted = draw_page(page_of(60_pt, 40_pt, {text}), {.dpi = 288});
  EXPECT_NEAR(ink(tinted) / ink(image), 127 / 255.0, 0.01);
}

TEST(Preview, SizesAreRoundedUpToWholePixels) {
  const auto a4 = draw_page(page_of(210_mm, 297_mm, {}), {.dpi = 96});
  EXPECT_EQ(a4.width, 794);
  EXPECT_EQ(a4.height, 1123);
  EXPECT_EQ(a4.dpi, 96);
  EXPECT_FALSE(a4.colour);
  EXPECT_EQ(ink(a4), 0);
  const auto letter = draw_page(page_of(612_pt, 792_pt, {}), {.dpi = 600});
  EXPECT_EQ(letter.width, 5100);
  EXPECT_EQ(letter.height, 6600);
}

// The message of what is refused; empty where it is drawn.
std::string refusal(Length width, Length height, int dpi) {
  try {
    draw_page(page_of(width, height, {}), {.dpi = dpi});
  } catch (const MachineError& error) {
    return error.what();
  }
  return {};
}

TEST(Preview, LimitsAreSaidBeforeMemoryIsTaken) {
  EXPECT_EQ(refusal(20_pt, 20_pt, 20), "");
  EXPECT_EQ(refusal(20_pt, 20_pt, 19),
            "a page can be drawn at 20 to 600 dots an inch, not at 19");
  EXPECT_EQ(refusal(20_pt, 20_pt, 601),
            "a page can be drawn at 20 to 600 dots an inch, not at 601");
  EXPECT_EQ(refusal(420_mm, 297_mm, 600),
            "a page of 420 by 297 mm is too large to be drawn at 600 dots an "
            "inch");
  EXPECT_NE(refusal(Length::from_mm(1e9), 1_mm, 600), "");
}

TEST(Preview, AShapeOfTooManyPointsIsRefused) {
  PathMark mark;
  mark.filled = true;
  for (int i = 0; i < 40'000; ++i) {
    mark.path.push_back({i == 0 ? PathStep::Kind::move : PathStep::Kind::line,
                         {Length::from_pt(i % 20), Length::from_pt(i % 7)},
                         {},
                         {}});
  }
  EXPECT_THROW(drawn({mark}), MachineError);
}

// The finest dots on a long line are more than FreeType takes at once.
// As wide as a screen, at the resolution of a printer: more dots in a row of
// pixels than FreeType has room for at once.
TEST(Preview, AWideRowOfDotsIsDrawn) {
  const Page page =
      page_of(300_mm, 10_mm,
              {LineMark{{0_mm, 5_mm},
                        {300_mm, 5_mm},
                        {.width = 1.5_pt, .dash = {0_mm, 1.75_mm}}}});
  const auto image = draw_page(page, {.dpi = 300});
  int dots = 0;
  const int row = image.height / 2;
  for (int x = 1; x < image.width; ++x) {
    dots += at(image, x - 1, row) > 128 && at(image, x, row) <= 128 ? 1 : 0;
  }
  EXPECT_NEAR(dots, 171, 1);
}

TEST(Preview, ALongLineOfFineDotsIsDrawn) {
  const Stroke dots{1_pt, kBlack, {Length(), Length::from_pt(0.2)}};
  const Page page = page_of(2000_pt, 20_pt,
                            {LineMark{{0_pt, 10_pt}, {2000_pt, 10_pt}, dots}});
  const auto image = draw_page(page, {.dpi = 72});
  EXPECT_GT(ink(image), 1500);
}

}  // namespace
}  // namespace sheaf
