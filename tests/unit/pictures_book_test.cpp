#include <gtest/gtest.h>

#include <algorithm>

#include "base/error.h"
#include "files/disk_files.h"
#include "pictures/emoji.h"
#include "pictures/picture_book.h"

namespace sheaf {
namespace {

using namespace literals;

class Book : public testing::Test {
 protected:
  FontLibrary fonts_{disk(), SHEAF_FONTS};
  PictureBook book_{fonts_};

  const LineDrawing& drawing(std::string_view word) {
    const Picture* picture = book_.find(word);
    if (!picture) throw std::runtime_error("no picture");
    return std::get<LineDrawing>(picture->image);
  }
};

struct Extent {
  Length left = 1000_pt, right, top = 1000_pt, bottom;
};

Extent extent_of(const LineDrawing& drawing) {
  Extent extent;
  for (const PathStep& step : drawing.path) {
    if (step.kind == PathStep::Kind::close) continue;
    extent.left = std::min(extent.left, step.to.x);
    extent.right = std::max(extent.right, step.to.x);
    extent.top = std::min(extent.top, step.to.y);
    extent.bottom = std::max(extent.bottom, step.to.y);
  }
  return extent;
}

TEST_F(Book, HasAPictureForEveryWord) {
  for (const PictureWord& row : picture_words()) {
    const Picture* picture = book_.find(row.word);
    ASSERT_NE(picture, nullptr) << row.word;
    EXPECT_EQ(picture->name, row.word);
    const auto& drawing = std::get<LineDrawing>(picture->image);
    EXPECT_GT(drawing.path.size(), 4U) << row.word;
    EXPECT_EQ(drawing.path.front().kind, PathStep::Kind::move);
    EXPECT_EQ(drawing.path.back().kind, PathStep::Kind::close);
    // One box for all, or one scale for all would not give one line weight.
    EXPECT_EQ(drawing.box, (Size{100_pt, 100_pt})) << row.word;
    const Extent extent = extent_of(drawing);
    EXPECT_GE(extent.left, 0_pt) << row.word;
    EXPECT_GE(extent.top, 0_pt) << row.word;
    EXPECT_LE(extent.right, 100_pt) << row.word;
    EXPECT_LE(extent.bottom, 100_pt) << row.word;
  }
}

TEST_F(Book, GivesTheSamePictureAgain) {
  EXPECT_EQ(book_.find("fish"), book_.find("Fish"));
  EXPECT_NE(book_.find("fish"), book_.find("ship"));
}

TEST_F(Book, HasNothingForOtherWords) {
  EXPECT_EQ(book_.find("because"), nullptr);
  EXPECT_EQ(book_.find(""), nullptr);
}

// The circle of the picture font: a ring of which the outer edge has a radius
// of 1,020 units and the line is 40 wide (read off the font).
TEST_F(Book, LinesOfGlyphsAndDrawingsAreOfOneWeight) {
  std::string why;
  const Picture* ring = book_.find_emoji("⚪", "ring", why);
  ASSERT_NE(ring, nullptr) << why;
  const Extent outer = extent_of(std::get<LineDrawing>(ring->image));
  EXPECT_NEAR((outer.right - outer.left).pt(), 2040 / 24.8, 0.01);
  EXPECT_NEAR((outer.bottom - outer.top).pt(), 2040 / 24.8, 0.01);
  EXPECT_NEAR(((outer.top + outer.bottom) / 2).pt(), 50, 0.03);
  // Our square is 82 wide to the middle of its line.
  const Extent square = extent_of(drawing("square"));
  EXPECT_NEAR((square.right - square.left).pt() - 82, 40 / 24.8, 0.002);
}

TEST_F(Book, FindsTheEmojiOfALesson) {
  std::string why;
  const Picture* hut = book_.find_emoji("🛖", "shed", why);
  ASSERT_NE(hut, nullptr) << why;
  EXPECT_EQ(hut->name, "shed");
  EXPECT_EQ(hut, book_.find_emoji("🛖", "shed", why));
  EXPECT_NE(hut, book_.find_emoji("🛖", "hut", why));
}

TEST_F(Book, SkinToneAndStyleMakeNoDifference) {
  std::string why;
  const Picture* hand = book_.find_emoji("✋", "hand", why);
  ASSERT_NE(hand, nullptr);
  EXPECT_EQ(hand, book_.find_emoji("✋🏽", "hand", why));
  EXPECT_EQ(book_.find_emoji("❄", "snow", why),
            book_.find_emoji("❄️", "snow", why));
}

// Two of the font's pictures are wider than all others.
TEST_F(Book, MakesRoomForWidePictures) {
  for (const char* emoji : {"📿", "🫨"}) {
    std::string why;
    const Picture* picture = book_.find_emoji(emoji, "wide", why);
    ASSERT_NE(picture, nullptr) << why;
    const auto& drawing = std::get<LineDrawing>(picture->image);
    EXPECT_GT(drawing.box.width, 100_pt);
    const Extent extent = extent_of(drawing);
    EXPECT_GE(extent.left, 0_pt);
    EXPECT_LE(extent.right, drawing.box.width);
  }
}

TEST_F(Book, KnowsJoinedEmoji) {
  std::string why;
  EXPECT_NE(book_.find_emoji("👩‍🚀", "astronaut", why), nullptr) << why;
  EXPECT_NE(book_.find_emoji("🏃‍♀️", "run", why), nullptr) << why;
  EXPECT_NE(book_.find_emoji("👨‍👩‍👧‍👦", "family", why),
            nullptr)
      << why;
}

TEST_F(Book, RefusesWhatALearnerCouldRead) {
  struct Case {
    const char* emoji;
    const char* why;
  };
  for (const auto& [emoji, expected] :
       {Case{"🔟", "it shows digits"}, Case{"💯", "it shows digits"},
        Case{"5️⃣", "it shows digits"}, Case{"7", "it shows digits"},
        Case{"🎱", "it shows digits"}, Case{"🅰️", "it shows letters"},
        Case{"😴", "it shows letters"}, Case{"🆒", "it shows letters"},
        Case{"🇫🇷", "it shows letters"},
        Case{"🏴󠁧󠁢󠁥󠁮󠁧󠁿", "it shows letters"},
        Case{"📅", "it shows letters"}, Case{"🏨", "it shows letters"},
        Case{"💰", "it shows a sign for money"},
        Case{"❓", "it shows a sign of writing or sums"},
        Case{"➕", "it shows a sign of writing or sums"},
        Case{"❌", "it can be read as a letter or a sign"},
        Case{"♏", "it can be read as a letter or a sign"},
        Case{"🈷️", "it shows writing of another language"},
        Case{"🖕", "it is a rude sign"}}) {
    std::string why;
    EXPECT_EQ(book_.find_emoji(emoji, "word", why), nullptr) << emoji;
    EXPECT_EQ(why, expected) << emoji;
  }
}

TEST_F(Book, RefusesWhatIsNotOneEmoji) {
  for (const char* text : {"", "🐟🐟", "🐟 ", "fish", "🐟.png"}) {
    std::string why;
    EXPECT_EQ(book_.find_emoji(text, "fish", why), nullptr) << text;
    EXPECT_EQ(why, "it is not a single emoji") << text;
  }
  for (const char* text : {"a", "é", "漢", " ", "\n", "\xFF", "\U000E0001"}) {
    std::string why;
    EXPECT_EQ(book_.find_emoji(text, "fish", why), nullptr) << text;
    EXPECT_EQ(why, "there is no picture for it") << text;
  }
}

TEST_F(Book, SurvivesLongText) {
  std::string marks = "🐟";
  for (int i = 0; i < 100'000; ++i) marks += "\u0301";
  std::string why;
  EXPECT_EQ(book_.find_emoji(marks, "fish", why), nullptr);
}

TEST(Emoji, AreToldFromFileNames) {
  EXPECT_TRUE(looks_like_emoji("🐟"));
  EXPECT_TRUE(looks_like_emoji("👩‍🚀"));
  EXPECT_TRUE(looks_like_emoji("5️⃣"));
  EXPECT_FALSE(looks_like_emoji("pictures/shed.png"));
  EXPECT_FALSE(looks_like_emoji("🐟.png"));
  EXPECT_FALSE(looks_like_emoji("shed"));
  EXPECT_FALSE(looks_like_emoji(""));
}

TEST(PictureFont, IsOpenedWhenFirstUsedAndIsNoTypeface) {
  FontLibrary fonts(disk(), SHEAF_FONTS);
  const std::string font = SHEAF_FONTS "/NotoEmoji_300Light.ttf";
  PictureBook book(fonts);
  book.find("lamp");
  std::vector<std::string> files = fonts.files_read();
  EXPECT_EQ(std::count(files.begin(), files.end(), font), 0);
  book.find("fish");
  files = fonts.files_read();
  EXPECT_EQ(std::count(files.begin(), files.end(), font), 1);
  const std::vector<std::string> families = fonts.families();
  EXPECT_EQ(std::count(families.begin(), families.end(), "Noto Emoji"), 0);
  EXPECT_EQ(fonts.find("Noto Emoji", FontRole::regular), nullptr);
}

TEST(PictureFont, ThatIsMissingOrBrokenIsTheMachinesFault) {
  EXPECT_THROW(disk().keep("no/such/file.ttf"), MachineError);
  EXPECT_THROW(GlyphOutlines(disk().keep(SHEAF_FONTS "/manifest.tsv"), "it"),
               MachineError);
}

}  // namespace
}  // namespace sheaf
