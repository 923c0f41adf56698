// The drawing of a mouth keeps inside its frame, whatever the mouth does.

#include <gtest/gtest.h>

#include <algorithm>

#include "files/disk_files.h"
#include "layout/mark_bounds.h"
#include "layout/mouth_view.h"

namespace sheaf {
namespace {

using namespace literals;
using Lips = MouthShape::Lips;
using Air = MouthShape::Air;

// Tongues at the ends of where they go.
const MouthTongue kHigh = {{22, 54.5}, {42, 41}, {52, 36}, {68, 33}};
const MouthTongue kLow = {{38, 67}, {45, 65}, {58, 61}, {71, 60}};

class MouthView : public testing::Test {
 protected:
  MouthView()
      : fonts_(disk(), SHEAF_FONTS),
        style_(make_style(OptionValues(page_options()), fonts_, diagnostics_)) {
  }

  Block drawn(const MouthShape& shape, const Rect& box) {
    Block block;
    draw_mouth(block, style_, shape, box, 7);
    return block;
  }

  Diagnostics diagnostics_;
  FontLibrary fonts_;
  Style style_;
};

TEST_F(MouthView, KeepsInsideItsFrame) {
  const Rect box{10_mm, 20_mm, 70_mm, 60_mm};
  int drawn_shapes = 0;
  for (const Lips lips : {Lips::shut, Lips::teeth, Lips::round, Lips::forward,
                          Lips::spread, Lips::open}) {
    for (int jaw = 0; jaw <= 3; ++jaw) {
      for (const Air air :
           {Air::stop, Air::rush, Air::rub, Air::sides, Air::free, Air::nose}) {
        for (const MouthTongue& tongue : {kHigh, kLow}) {
          const Block block = drawn({.lips = lips,
                                     .jaw = jaw,
                                     .tongue = tongue,
                                     .end = kHigh,
                                     .air = air,
                                     .voice = jaw % 2 == 0},
                                    box);
          ++drawn_shapes;
          for (const Mark& mark : block.marks) {
            const Rect at = bounds_of(mark);
            ASSERT_GE(at.x, box.x);
            ASSERT_GE(at.y, box.y);
            ASSERT_LE(at.right(), box.right());
            ASSERT_LE(at.bottom(), box.bottom());
            ASSERT_EQ(std::get<PathMark>(mark).element, 7U);
          }
        }
      }
    }
  }
  EXPECT_EQ(drawn_shapes, 6 * 4 * 6 * 2);
}

TEST_F(MouthView, VoiceChangesTheRingInTheThroatOnly) {
  const Rect box{{}, {}, 60_mm, 60_mm};
  MouthShape shape{.lips = Lips::shut, .tongue = kLow, .air = Air::stop};
  const Block quiet = drawn(shape, box);
  shape.voice = true;
  const Block loud = drawn(shape, box);
  ASSERT_EQ(quiet.marks.size(), loud.marks.size());
  int different = 0;
  for (std::size_t i = 0; i < quiet.marks.size(); ++i) {
    const auto& a = std::get<PathMark>(quiet.marks[i]);
    const auto& b = std::get<PathMark>(loud.marks[i]);
    if (a.path.size() != b.path.size()) ++different;
  }
  EXPECT_EQ(different, 1);
}

TEST_F(MouthView, LinesOutliveAPhotocopy) {
  for (const Length side : {40_mm, 60_mm, 80_mm}) {
    const Block block = drawn({.tongue = kLow, .end = kHigh, .air = Air::nose},
                              {{}, {}, side, side});
    for (const Mark& mark : block.marks) {
      EXPECT_GE(std::get<PathMark>(mark).stroke.width, 0.5_pt);
      EXPECT_EQ(std::get<PathMark>(mark).stroke.ink, kBlack);
    }
  }
}

}  // namespace
}  // namespace sheaf
