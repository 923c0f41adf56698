#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "files/disk_files.h"
#include "support/small_font.h"
#include "text/font_library.h"
#include "text/letter_shapes.h"
#include "text/shaper.h"

#include <fmt/format.h>

namespace sheaf {
namespace {

class Shaping : public testing::Test {
 protected:
  FontLibrary library{disk(), SHEAF_FONTS};
  Shaper shaper;
  const Font& font = *library.find("Andika", FontRole::regular);

  GlyphRun run(std::string_view text, Length size = Length::from_pt(2048)) {
    return {&shaper.shape(font, text), size, {}, {}};
  }
};

// glyph=cluster@x,y+advance, as hb-shape prints it with --no-glyph-names.
std::string as_line(const ShapedText& shaped) {
  std::string line;
  for (const ShapedGlyph& glyph : shaped.glyphs) {
    if (!line.empty()) line += '|';
    line += fmt::format("{}={}", glyph.id, glyph.cluster);
    if (glyph.x_offset != 0 || glyph.y_offset != 0) {
      line += fmt::format("@{},{}", glyph.x_offset, glyph.y_offset);
    }
    line += fmt::format("+{}", glyph.advance);
  }
  return line;
}

struct ShapeCase {
  const char* text;
  const char* features;
  const char* glyphs;
};

// Expected values from HarfBuzz 6.0's own hb-shape over the same file:
// hb-shape --shapers=ot --cluster-level=1 --no-glyph-names --utf8-clusters
//   --features=-liga,-clig[,FEATURES] Andika-Regular.ttf TEXT
const ShapeCase kShapes[] = {
    {"fish", "", "73=0+750|76=1+565|86=2+965|75=3+1175"},
    {"fl", "", "73=0+750|79=1+565"},
    {"fi", "", "73=0+750|76=1+565"},
    {"ffi", "", "73=0+750|73=1+750|76=2+565"},
    {"\u00E9", "", "112=0+1095"},
    {"e\u0301", "", "112=0+1095"},
    {"\u0103", "", "312=0+1150"},
    {"a\u0306", "", "312=0+1150"},
    {"o\u035Eo", "", "82=0+1140|2312=1+0|82=3+1140"},
    {"t\u0306", "", "87=0+835|2256=1@60,260+0"},
    {"\u201Cx\u201D", "", "180=0+1050|91=3+1085|181=4+1010"},
    {"", "", ""},
};

TEST_F(Shaping, GivesTheGlyphsThatHarfBuzzGives) {
  for (const ShapeCase& c : kShapes) {
    EXPECT_EQ(as_line(shaper.shape(font, c.text, c.features)), c.glyphs)
        << c.text << " " << c.features;
  }
}

TEST_F(Shaping, TakesAlternateLetterShapes) {
  const auto glyph = [&](std::string_view text, std::string_view features) {
    return shaper.shape(font, text, features).glyphs.at(0).id;
  };
  EXPECT_NE(glyph("a", ""), glyph("a", "ss01"));
  EXPECT_NE(glyph("g", ""), glyph("g", "ss01"));
  EXPECT_EQ(glyph("g", ""), glyph("g", "ss13"));
  EXPECT_EQ(glyph("g", "ss01"), glyph("g", "ss13,ss14"));
  EXPECT_EQ(glyph("a", "not a feature,ss13"), glyph("a", "ss13"));
}

// Andika's designers gave its a one storey, and its ss01 two (its feature
// documentation, from memory). In the typeface of blocks every letter is one
// stroke.
TEST_F(Shaping, FindsTheFeaturesForAnA) {
  for (const FontRole role : {FontRole::regular, FontRole::bold}) {
    const Font& face = *library.find("Andika", role);
    EXPECT_EQ(features_for(face, LetterShapes::single_storey), "");
    EXPECT_EQ(features_for(face, LetterShapes::two_storey), "ss01");
  }
  std::string why;
  const Font* blocks = library.add("Blocks", FontRole::regular,
                                   testing_support::SmallFont().file(), why);
  ASSERT_TRUE(blocks) << why;
  EXPECT_EQ(features_for(*blocks, LetterShapes::single_storey), "");
  EXPECT_FALSE(features_for(*blocks, LetterShapes::two_storey));
}

TEST_F(Shaping, KeepsWhatItShaped) {
  const ShapedText& first = shaper.shape(font, "brush");
  for (int i = 0; i < 2000; ++i) shaper.shape(font, std::to_string(i));
  EXPECT_EQ(&shaper.shape(font, std::string("bru") + "sh"), &first);
  EXPECT_NE(&shaper.shape(font, "brush", "ss01"), &first);
  const Font& bold = *library.find("Andika", FontRole::bold);
  EXPECT_NE(&shaper.shape(bold, "brush"), &first);
  EXPECT_EQ(first.text, "brush");
}

TEST_F(Shaping, SaysWhichBytesEachGlyphShows) {
  const ShapedText& shaped = shaper.shape(font, "o\u035Eo\u00E9");
  std::vector<std::string> parts;
  for (const ShapedGlyph& glyph : shaped.glyphs) {
    parts.push_back(shaped.text.substr(glyph.text_begin,
                                       glyph.text_end - glyph.text_begin));
  }
  EXPECT_EQ(parts, (std::vector<std::string>{"o", "\u035E", "o", "\u00E9"}));
}

// At 2048 pt a font unit of Andika is a point: 2048 units to the em.
TEST_F(Shaping, AddsUpAdvances) {
  const GlyphRun fish = run("fish");
  EXPECT_EQ(width_of(fish), Length::from_pt(750 + 565 + 965 + 1175));
  EXPECT_EQ(pen_before(fish, 0), Length());
  EXPECT_EQ(pen_before(fish, 2), Length::from_pt(750 + 565));
  EXPECT_EQ(pen_before(fish, 4), width_of(fish));
  EXPECT_EQ(width_of(run("")), Length());
}

TEST_F(Shaping, SpacesCharactersAndWords) {
  GlyphRun text = run("a o\u035Eo");
  const Length plain = width_of(text);
  text.tracking = Length::from_pt(10);
  text.word_gap = Length::from_pt(100);
  // Four characters: a, the space, o with its mark, o.
  EXPECT_EQ(width_of(text), plain + Length::from_pt(3 * 10 + 100));
  const GlyphRun bare = run("a o\u035Eo");
  const auto shift = [&](std::size_t glyph) {
    return pen_before(text, glyph) - pen_before(bare, glyph);
  };
  EXPECT_EQ(shift(1), Length::from_pt(10));
  EXPECT_EQ(shift(2), Length::from_pt(120));
  EXPECT_EQ(shift(3), Length::from_pt(120)) << "no gap before a mark";
  EXPECT_EQ(shift(4), Length::from_pt(130));
}

// Glyph boxes as hb-shape --show-extents gives them for Andika Regular:
// f <40,1620,765,-1620>, i <155,1480,255,-1480>, s <110,1040,770,-1065>,
// h <130,1600,910,-1600>, o <95,1040,950,-1065>, U+035E <-750,1390,1500,-150>.
TEST_F(Shaping, FindsTheInkOfPartsOfAWord) {
  const GlyphRun fish = run("fish");
  const InkSpan f = ink_of(fish, 0, 1);
  EXPECT_EQ(f.left, Length::from_pt(40));
  EXPECT_EQ(f.right, Length::from_pt(805));
  const InkSpan sh = ink_of(fish, 2, 4);
  EXPECT_EQ(sh.left, Length::from_pt(1315 + 110));
  EXPECT_EQ(sh.right, Length::from_pt(1315 + 965 + 130 + 910));
  EXPECT_EQ(sh.middle(), (sh.left + sh.right) / 2);
}

TEST_F(Shaping, CountsMarksIntoTheInk) {
  const GlyphRun zoo = run("o\u035Eo");
  const InkSpan tie = ink_of(zoo, 1, 3);
  EXPECT_EQ(tie.left, Length::from_pt(1140 - 750));
  EXPECT_EQ(tie.right, Length::from_pt(1140 + 750));
  const InkSpan all = ink_of(zoo, 0, 4);
  EXPECT_EQ(all.left, Length::from_pt(95));
  EXPECT_EQ(all.right, Length::from_pt(1140 + 95 + 950));
}

TEST_F(Shaping, GivesThePlaceOfTextWithoutInk) {
  const GlyphRun text = run("f i");
  const InkSpan space = ink_of(text, 1, 2);
  EXPECT_EQ(space.left, Length::from_pt(750));
  EXPECT_EQ(space.width(), Length());
  const InkSpan nothing = ink_of(run(""), 0, 0);
  EXPECT_EQ(nothing.left, Length());
}

TEST_F(Shaping, SharesTheInkOfALigature) {
  // Asked for outright, the ligature fi is one glyph over two letters.
  const GlyphRun fi = {
      &shaper.shape(font, "fi", "liga"), Length::from_pt(2048), {}, {}};
  ASSERT_EQ(fi.shape->glyphs.size(), 1U);
  const InkSpan both = ink_of(fi, 0, 2);
  const InkSpan f = ink_of(fi, 0, 1), i = ink_of(fi, 1, 2);
  EXPECT_EQ(f.left, both.left);
  EXPECT_EQ(f.right, i.left);
  EXPECT_EQ(i.right, both.right);
  EXPECT_EQ(f.right, both.middle());
}

TEST_F(Shaping, SurvivesTextThatIsNotText) {
  for (const char* text :
       {"\xFF\xFE", "a\xCC", "\xED\xA0\x80", "\u202Eabc", "\u200D\u200D",
        "\n\t", "\U0001F41F", "\u0644\u0627"}) {
    const GlyphRun odd = run(text);
    const std::size_t size = std::string_view(text).size();
    EXPECT_GE(width_of(odd), Length()) << text;
    EXPECT_GE(ink_of(odd, 0, size).width(), Length()) << text;
    for (std::size_t i = 0; i < size; ++i) ink_of(odd, i, i + 1);
  }
}

}  // namespace
}  // namespace sheaf
