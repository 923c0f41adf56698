// The box of an item that is done, and lines on which some letters are printed.

#include <gtest/gtest.h>

#include <algorithm>

#include "files/disk_files.h"
#include "layout/begun_line.h"
#include "layout/mark_bounds.h"
#include "layout/model_frame.h"
#include "layout/ruled_lines.h"
#include "layout/sound_boxes.h"

namespace sheaf {
namespace {

using namespace literals;

class Model : public testing::Test {
 protected:
  Model()
      : fonts_(disk(), SHEAF_FONTS),
        style_(make_style(OptionValues(page_options()), fonts_, diagnostics_)),
        composer_(shaper_, style_, document_, kDocumentElement,
                  style_.body_size()) {}

  // What a line printed in part is heard as.
  std::string heard_gaps(std::string_view word, std::vector<bool> given) {
    Block block;
    draw_gapped_word(composer_, block, style_.ruling, word, given, {}, 80_mm,
                     kDocumentElement);
    return document_.elements.back().alternative;
  }

  Diagnostics diagnostics_;
  FontLibrary fonts_;
  Shaper shaper_;
  Style style_;
  Document document_;
  Composer composer_;
};

TEST_F(Model, BoxFillsItsRoomAndSaysItsHeadFirst) {
  Block block;
  const Rect box = model_box(composer_, 40_mm);
  draw_model_frame(composer_, block, box, kDocumentElement);
  Length left = box.right(), right, top = box.bottom(), bottom;
  for (const Mark& mark : block.marks) {
    const Rect place = bounds_of(mark);
    left = std::min(left, place.x);
    right = std::max(right, place.right());
    top = std::min(top, place.y);
    bottom = std::max(bottom, place.bottom());
    // Nothing of it is decoration: the box is heard by its head.
    const ElementId element =
        std::visit([](const auto& kind) { return kind.element; }, mark);
    EXPECT_EQ(document_.element(element).alternative, "Like this:");
  }
  EXPECT_EQ(left, box.x);
  EXPECT_EQ(right, box.right());
  EXPECT_GE(top, box.y);
  EXPECT_EQ(bottom, box.bottom());
}

TEST_F(Model, LeavesRoomForTheItemBelowItsHead) {
  const ModelRoom room = model_room(style_);
  Block block;
  draw_model_frame(composer_, block, model_box(composer_, 40_mm),
                   kDocumentElement);
  for (const Mark& mark : block.marks) {
    const auto* text = std::get_if<GlyphMark>(&mark);
    if (text == nullptr) continue;
    EXPECT_LT(text->at.y, room.above);
  }
  EXPECT_GT(room.side, 2_mm);
}

TEST_F(Model, TextIsAsTallAsItSays) {
  const TextStyle text = style_.text(22_pt);
  const std::vector<TextPiece> pieces = {
      {"The ", text}, {.text = "fish", .style = text, .marked = true}};
  add_model_text(composer_, pieces);
  ASSERT_EQ(composer_.blocks().size(), 1U);
  EXPECT_EQ(composer_.blocks().front().height,
            model_text_height(composer_, pieces));
  EXPECT_TRUE(std::ranges::any_of(document_.elements, [](const Element& e) {
    return e.alternative.find("Marked: fish") != std::string::npos;
  }));
}

TEST_F(Model, GapsAreHeardInTheirPlaces) {
  EXPECT_EQ(heard_gaps("ship", {false, false, true, true}),
            "room for 2 letters, ip");
  EXPECT_EQ(heard_gaps("cake", {true, false, true, false}),
            "c, room for 1 letter, k, room for 1 letter");
}

TEST_F(Model, WhatIsPrintedStandsOnTheBaseLineAlone) {
  Block block;
  draw_begun_line(composer_, block, style_.ruling, "The ship", {}, 120_mm,
                  kDocumentElement);
  Length print_end;
  for (const Mark& mark : block.marks) {
    if (std::holds_alternative<GlyphMark>(mark)) {
      print_end = bounds_of(mark).right();
    }
  }
  ASSERT_GT(print_end, 0_mm);
  for (const Mark& mark : block.marks) {
    const auto* line = std::get_if<LineMark>(&mark);
    if (line == nullptr || line->from.y == base_in_set(style_.ruling)) continue;
    EXPECT_GT(line->from.x, print_end);
  }
}

TEST(GivenBoxes, ASilentEIsGivenWithItsOwnGrapheme) {
  BoxRowOptions options;
  options.tap_dots = false;
  options.fill = BoxFill::given;
  const std::vector<SoundBox> cake = {{.letters = "c", .given = true},
                                      {.letters = "a", .of_pattern = true},
                                      {.letters = "k",
                                       .slot_after = "e",
                                       .slot_of_pattern = true,
                                       .given = true}};
  EXPECT_EQ(heard_boxes(cake, 1, options),
            "3 boxes: c, empty, k, then a narrow slot for the silent e");
  options.fill = BoxFill::pattern;
  EXPECT_EQ(heard_boxes(cake, 1, options),
            "3 boxes: empty, a, empty, then e in a narrow slot");
}

}  // namespace
}  // namespace sheaf
