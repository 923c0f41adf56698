#include <gtest/gtest.h>

#include <algorithm>

#include "files/disk_files.h"
#include "layout/heard.h"
#include "layout/ruled_lines.h"
#include "layout/sound_boxes.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "layout/touch_marks.h"

namespace sheaf {
namespace {

using namespace literals;

bool is_text(const Mark& mark, std::string_view text) {
  const auto* glyphs = std::get_if<GlyphMark>(&mark);
  return glyphs != nullptr && glyphs->run.shape->text == text;
}

class Words : public testing::Test {
 protected:
  Words()
      : fonts_(disk(), SHEAF_FONTS),
        style_(make_style(OptionValues(page_options()), fonts_, diagnostics_)),
        composer_(shaper_, style_, document_, kDocumentElement,
                  style_.body_size()) {}

  Block drawn(const std::string& word, const std::vector<Grapheme>& graphemes) {
    TouchWordOptions options;
    options.text = style_.text(44_pt);
    options.mark_spacing = 10_mm;
    options.guide_weight = 0.5_pt;
    Block block;
    const TouchWord touch(composer_, word, graphemes, options);
    touch.draw(composer_, block, {}, kDocumentElement);
    return block;
  }

  // Middles of the marks under a word: dots, pills and rings.
  static std::vector<Length> marks(const Block& block) {
    std::vector<Length> middles;
    for (const Mark& mark : block.marks) {
      if (const auto* dot = std::get_if<DotMark>(&mark)) {
        middles.push_back(dot->centre.x);
      }
      if (const auto* line = std::get_if<LineMark>(&mark)) {
        if (line->stroke.width > 3_mm) {
          middles.push_back((line->from.x + line->to.x) / 2);
        }
      }
    }
    std::ranges::sort(middles);
    return middles;
  }

  // Middles of the ink of each piece of text.
  static std::vector<Length> inks(const Block& block) {
    std::vector<Length> middles;
    for (const Mark& mark : block.marks) {
      if (const auto* text = std::get_if<GlyphMark>(&mark)) {
        const auto size = text->run.shape->text.size();
        middles.push_back(text->at.x + ink_of(text->run, 0, size).middle());
      }
    }
    return middles;
  }

  Diagnostics diagnostics_;
  FontLibrary fonts_;
  Shaper shaper_;
  Style style_;
  Document document_;
  Composer composer_;
};

TEST_F(Words, MarksStandUnderTheInkOfEachGrapheme) {
  const Block block = drawn("fish", {{0, 1}, {1, 2}, {2, 4}});
  const auto middles = marks(block);
  const auto letters = inks(block);
  ASSERT_EQ(middles.size(), 3U);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_LE(std::abs((middles[i] - letters[i]).mils()), 1);
  }
}

TEST_F(Words, MarksAreAFingertipApart) {
  const auto middles = marks(drawn("ill", {{0, 1}, {1, 3}}));
  ASSERT_EQ(middles.size(), 2U);
  EXPECT_GE(middles[1] - middles[0], 10_mm);
}

TEST_F(Words, ASplitVowelHasItsMarkUnderTheVowelAndARingUnderTheE) {
  const Block block = drawn("cake", {{0, 1}, {1, 2, 3}, {2, 3}});
  int rings = 0, ties = 0;
  for (const Mark& mark : block.marks) {
    if (const auto* dot = std::get_if<DotMark>(&mark)) rings += dot->hollow;
    ties += std::holds_alternative<PathMark>(mark);
  }
  EXPECT_EQ(rings, 1);
  EXPECT_EQ(ties, 1);
  EXPECT_EQ(marks(block).size(), 4U);
}

TEST_F(Words, AnApostropheGoesWithTheLetterBefore) {
  const Block block = drawn("don't", {{0, 1}, {1, 2}, {2, 3}, {4, 5}});
  std::string text;
  for (const Mark& mark : block.marks) {
    if (const auto* glyphs = std::get_if<GlyphMark>(&mark)) {
      text += glyphs->run.shape->text + "|";
    }
  }
  EXPECT_EQ(text, "d|o|n'|t|");
}

std::vector<SoundBox> boxes(std::initializer_list<const char*> letters) {
  std::vector<SoundBox> result;
  for (const char* l : letters) result.push_back({l, 0, 1, "", false, false});
  return result;
}

TEST(SoundBoxes, AreWideEnoughForTheWidestGrapheme) {
  const std::vector<std::vector<SoundBox>> words = {boxes({"n", "igh", "t"})};
  // Our own rule of thumb: igh in a hand of 8 mm needs about 22 mm.
  const BoxMeasures m = measure_boxes(words, 8_mm, 15_mm);
  EXPECT_NEAR(m.width.mm(), 22, 1.5);
  EXPECT_EQ(measure_boxes({}, 8_mm, 15_mm).width, 15_mm);
}

// A wider gap stands between two beats, and is heard.
TEST(SoundBoxes, StandInBeats) {
  std::vector<SoundBox> word(5, SoundBox{.letters = "a"});
  const BoxMeasures measures{15_mm, 9_mm, 6_mm};
  const Length together = row_width(word, measures);
  word[3].starts_beat = true;
  EXPECT_EQ(row_width(word, measures), together + measures.beat_gap());
  EXPECT_NE(heard_boxes(word, 1, {}).find("in beats of 3 and 2"),
            std::string::npos);
}

TEST(SoundBoxes, BreakBetweenBeats) {
  auto word = boxes({"s", "u", "n", "f", "l", "ow", "er"});
  word[3].starts_beat = true;
  const BoxMeasures m{15_mm, 8_mm, 6_mm};
  EXPECT_EQ(box_rows(word, m, 150_mm).size(), 1U);
  const auto rows = box_rows(word, m, 80_mm);
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].size(), 3U);
}

TEST(SoundBoxes, NeverMoreThanTenInARow) {
  const std::vector<SoundBox> word(12, SoundBox{"a", 0, 1, "", false, false});
  const auto rows = box_rows(word, {15_mm, 8_mm, 6_mm}, 500_mm);
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].size(), 6U);
}

TEST_F(Words, OfATableStandInTwoRowsOrMoreOnEachPage) {
  for (int before = 180; before < 240; before += 3) {
    Composer composer(shaper_, style_, document_, kDocumentElement,
                      style_.body_size());
    composer.block(Length::from_mm(before));
    Table table(composer, {{"Word"}, {"Boxes"}});
    constexpr int kRows = 9;
    for (int i = 0; i < kRows; ++i) table.add_text_row({"ship", "3"});
    const auto pages =
        paginate(composer.take(), style_.body(), {210_mm, 297_mm});
    int rows = 0;
    for (const Page& page : pages) {
      const auto here = static_cast<int>(std::ranges::count_if(
          page.marks, [](const Mark& m) { return is_text(m, "ship"); }));
      EXPECT_NE(here, 1) << before;
      rows += here;
    }
    EXPECT_EQ(rows, kRows);
  }
}

TEST_F(Words, MarksDoNotRunIntoOneAnother) {
  // A dot under a thin letter beside the long mark under several letters.
  const Block block = drawn("light", {{0, 1}, {1, 4}, {4, 5}});
  std::vector<std::pair<Length, Length>> reach;
  for (const Mark& mark : block.marks) {
    if (const auto* dot = std::get_if<DotMark>(&mark)) {
      reach.emplace_back(dot->centre.x - dot->diameter / 2,
                         dot->centre.x + dot->diameter / 2);
    }
    const auto* line = std::get_if<LineMark>(&mark);
    if (line != nullptr && line->stroke.width > 3_mm) {
      reach.emplace_back(line->from.x - line->stroke.width / 2,
                         line->to.x + line->stroke.width / 2);
    }
  }
  std::ranges::sort(reach);
  ASSERT_EQ(reach.size(), 3U);
  EXPECT_GE(reach[1].first - reach[0].second, 1.9_mm);
  EXPECT_GE(reach[2].first - reach[1].second, 1.9_mm);
}

TEST_F(Words, InBoxesKeepClearOfTheWalls) {
  const std::vector<SoundBox> word = {{"e"}, {"dge"}};
  BoxRowOptions options;
  options.fill = BoxFill::all;
  options.text = style_.text(20_pt);
  const std::vector<std::vector<SoundBox>> words = {word};
  const Length printed = printed_box_width(composer_, words, 6_mm, options);
  const BoxMeasures measures = measure_boxes(words, 6_mm, printed);
  Block block;
  draw_box_row(composer_, block, word, measures, options, {}, kDocumentElement);
  for (const Mark& mark : block.marks) {
    const auto* text = std::get_if<GlyphMark>(&mark);
    if (text == nullptr || text->run.shape->text != "dge") continue;
    EXPECT_GE(text->at.x - measures.width, 1_mm);
    EXPECT_LE(text->at.x + width_of(text->run), 2 * measures.width - 1_mm);
    return;
  }
  FAIL() << "dge is not printed";
}

TEST_F(Words, OfAWholeParagraphStayOnOnePage) {
  std::string text;
  for (int i = 0; i < 60; ++i) text += "brush shelf ship ";
  const TextStyle style = style_.text(14_pt);
  for (const bool whole : {false, true}) {
    add_paragraph(composer_, style, text, {.whole = whole});
    std::vector<Block> blocks = composer_.take();
    ASSERT_GE(blocks.size(), 6U);
    // The page holds all lines, but not below what stands there already.
    const Length page = style.line_height() * static_cast<int>(blocks.size());
    Block above;
    above.height = style.line_height() * 3;
    blocks.insert(blocks.begin(), std::move(above));
    const auto pages =
        paginate(std::move(blocks), {0_mm, 0_mm, 150_mm, page}, {150_mm, page});
    ASSERT_EQ(pages.size(), 2U);
    EXPECT_EQ(pages[0].marks.empty(), whole);
  }
}

TEST(RuledLines, LineCountFollowsTheHand) {
  const std::string sentence = "The brush is in the shed.";
  EXPECT_EQ(hand_lines(sentence, 4_mm, 180_mm), 1);
  EXPECT_EQ(hand_lines(sentence, 10_mm, 180_mm), 2);
  EXPECT_EQ(hand_lines("", 6_mm, 180_mm), 1);
}

std::string heard_figure(const Document& document) {
  for (const Element& element : document.elements) {
    if (element.role == Role::figure) return element.alternative;
  }
  return "";
}

TEST_F(Words, MarksAreHeardWithTheGraphemesAboveThem) {
  drawn("kite", {{.begin = 0, .end = 1},
                 {.begin = 1, .end = 2, .split_e = 3, .shaded = true},
                 {.begin = 2, .end = 3}});
  EXPECT_EQ(
      heard_figure(document_),
      "3 marks to touch: k, i-blank-e in a frame, t; an arrow to sweep along");
}

TEST(HeardBoxes, AreCountedWithWhatStandsInThem) {
  BoxRowOptions options;
  std::vector<SoundBox> word = {{.letters = "sh", .of_pattern = true},
                                {.letters = "a"},
                                {.letters = "k", .slot_after = "e"}};
  EXPECT_EQ(heard_boxes(word, 1, options),
            "3 empty boxes, then a narrow slot for the silent e; a dot to tap "
            "over each box");
  options.tap_dots = false;
  options.fill = BoxFill::pattern;
  EXPECT_EQ(heard_boxes(word, 1, options),
            "3 boxes: sh, empty, empty, then a narrow slot for the silent e");
  options.fill = BoxFill::all;
  EXPECT_EQ(heard_boxes(word, 2, options),
            "3 boxes in 2 rows: sh, a, k, then e in a narrow slot");
  options.slots = false;
  options.fill = BoxFill::empty;
  EXPECT_EQ(heard_boxes(word, 1, options), "3 empty boxes");
  EXPECT_EQ(heard_boxes(std::span(word).first(1), 1, options), "1 empty box");
}

TEST(HeardBoxes, ThoseOfOneGraphemeAreJoined) {
  BoxRowOptions options;
  options.tap_dots = false;
  const std::vector<SoundBox> fox = {{.letters = "f"},
                                     {.letters = "o"},
                                     {.letters = "x", .part = 0, .parts = 2},
                                     {.letters = "x", .part = 1, .parts = 2}};
  EXPECT_EQ(heard_boxes(fox, 1, options),
            "4 empty boxes, boxes 3 and 4 joined");
  options.fill = BoxFill::all;
  EXPECT_EQ(heard_boxes(fox, 1, options), "4 boxes: f, o, x over 2 boxes");
}

TEST(HeardText, SignsHaveWords) {
  EXPECT_EQ(heard_signs("rain + ing = raining"),
            "rain plus ing equals raining");
  EXPECT_EQ(heard_signs("a–e says /ay/"), "a-blank-e says the sound ay");
  EXPECT_EQ(heard_grapheme("ai, a_e"), "ai, a-blank-e");
  EXPECT_EQ(heard_grapheme("-ing"), "ing, at the end");
  EXPECT_EQ(heard_grapheme("un-"), "un, at the start");
  EXPECT_EQ(heard_grapheme("sh"), "sh");
  const std::vector<std::string> parts = {"rab", "bit"};
  EXPECT_EQ(heard_parts(parts), "rab, bit");
}

}  // namespace
}  // namespace sheaf
