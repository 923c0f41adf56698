// The data behind the pictures: the table of words, our own drawings, and the
// characters that are kept off a learner's page.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "base/utf8.h"
#include "pictures/drawing_notation.h"
#include "pictures/emoji.h"
#include "pictures/picture_words.h"
#include "pictures/stroke_outline.h"
#include "pictures/tables.h"

namespace sheaf {
namespace {

using namespace literals;

// "U+1F987"
bool names_a_code_point(std::string_view text) {
  return (text.size() == 6 || text.size() == 7) && text.starts_with("U+") &&
         text.find_first_not_of("0123456789ABCDEF", 2) ==
             std::string_view::npos;
}

TEST(PictureTable, IsWellFormed) {
  const std::vector<std::string_view> lines = table_lines(pictures_table());
  ASSERT_FALSE(lines.empty());
  EXPECT_EQ(lines.front(), "word\tkind\tpicture\tclear\tmay say\tnote");
  EXPECT_EQ(lines.size(), picture_words().size() + 1);
  for (std::size_t i = 1; i < lines.size(); ++i) {
    const std::vector<std::string_view> cells = table_cells(lines[i]);
    ASSERT_EQ(cells.size(), 6U) << lines[i];
    for (const std::string_view cell : cells) EXPECT_FALSE(cell.empty());
    EXPECT_FALSE(find_bad_utf8(lines[i]));
    EXPECT_EQ(lower_case(cells[0]), cells[0]);
    EXPECT_TRUE(cells[3] == "yes" || cells[3] == "name-first") << lines[i];
    if (cells[1] == "glyph") {
      EXPECT_TRUE(names_a_code_point(cells[2])) << lines[i];
    } else {
      EXPECT_EQ(cells[1], "drawing") << lines[i];
    }
  }
}

TEST(PictureTable, HasEachWordOnceInOrder) {
  const auto words = picture_words();
  for (std::size_t i = 1; i < words.size(); ++i) {
    EXPECT_LT(words[i - 1].word, words[i].word);
  }
}

// A word whose picture another word has too can not be what every child says.
TEST(PictureTable, SharedPicturesAreNamedFirst) {
  const auto words = picture_words();
  for (const PictureWord& word : words) {
    const auto same =
        std::count_if(words.begin(), words.end(), [&](const PictureWord& w) {
          return w.kind == word.kind && w.source == word.source;
        });
    if (same > 1) {
      EXPECT_FALSE(word.clear) << word.word;
      EXPECT_FALSE(word.may_say.empty()) << word.word;
    }
  }
}

TEST(PictureTable, FindsWordsWhateverTheirCase) {
  ASSERT_NE(find_picture_word("ship"), nullptr);
  EXPECT_EQ(find_picture_word("Ship"), find_picture_word("ship"));
  EXPECT_EQ(find_picture_word("LAMP")->kind, PictureWord::Kind::drawing);
  EXPECT_EQ(find_picture_word("ice cream")->word, "ice cream");
}

TEST(PictureTable, FindsNoOtherForms) {
  EXPECT_EQ(find_picture_word("ships"), nullptr);
  EXPECT_EQ(find_picture_word("shi"), nullptr);
  EXPECT_EQ(find_picture_word(""), nullptr);
  EXPECT_EQ(find_picture_word("because"), nullptr);
}

TEST(PictureTable, ShowsNothingThatIsBlocked) {
  for (const PictureWord& word : picture_words()) {
    if (word.kind != PictureWord::Kind::glyph) continue;
    std::string why;
    EXPECT_TRUE(may_stand_on_a_page(text_of_code_points(word.source), why))
        << word.word << ": " << why;
  }
}

TEST(PictureDrawings, AreAllUsedAndAllThere) {
  const std::vector<std::string_view> names = drawing_names();
  const std::set<std::string_view> drawn(names.begin(), names.end());
  EXPECT_EQ(drawn.size(), names.size()) << "a drawing stands there twice";
  std::set<std::string_view> used;
  for (const PictureWord& word : picture_words()) {
    if (word.kind == PictureWord::Kind::drawing) used.insert(word.source);
  }
  EXPECT_EQ(drawn, used);
}

// The words that early lessons ask for and the picture font does not have.
TEST(PictureDrawings, CoverEarlyLessons) {
  for (const char* word :
       {"lamp", "desk", "belt", "mop", "jug", "rug", "hill", "gate", "cave",
        "rope", "rake", "net", "pin", "lid"}) {
    EXPECT_NE(find_picture_word(word), nullptr) << word;
  }
}

TEST(PictureDrawings, FollowTheNotationAndKeepToTheirBox) {
  for (const std::string_view name : drawing_names()) {
    const std::vector<std::string_view> lines = drawing_lines(name);
    EXPECT_FALSE(lines.empty()) << name;
    Length left = 100_pt, right = 0_pt, top = 100_pt, bottom = 0_pt;
    for (const std::string_view line : lines) {
      std::string why;
      const auto part = read_drawn_part(line, 1.6_pt, why);
      ASSERT_TRUE(part) << name << ": " << line << ": " << why;
      const Path shape = part->pen > Length()
                             ? stroke_outline(part->path, part->pen)
                             : fill_outline(part->path);
      for (const PathStep& step : shape) {
        if (step.kind == PathStep::Kind::close) continue;
        left = std::min(left, step.to.x);
        right = std::max(right, step.to.x);
        top = std::min(top, step.to.y);
        bottom = std::max(bottom, step.to.y);
      }
    }
    EXPECT_GE(left, 1_pt) << name;
    EXPECT_GE(top, 1_pt) << name;
    EXPECT_LE(right, 99_pt) << name;
    EXPECT_LE(bottom, 99_pt) << name;
    // Not a speck in a corner either.
    EXPECT_GE(std::max(right - left, bottom - top), 70_pt) << name;
    EXPECT_NEAR(((left + right) / 2).pt(), 50, 10) << name;
    EXPECT_NEAR(((top + bottom) / 2).pt(), 50, 10) << name;
  }
}

TEST(BlockedPictures, IsWellFormed) {
  const auto lines = table_lines(blocked_pictures_table());
  ASSERT_FALSE(lines.empty());
  EXPECT_EQ(lines.front(), "first\tlast\twhy");
  for (std::size_t i = 1; i < lines.size(); ++i) {
    const auto cells = table_cells(lines[i]);
    ASSERT_EQ(cells.size(), 3U) << lines[i];
    EXPECT_TRUE(names_a_code_point(cells[0]));
    EXPECT_TRUE(names_a_code_point(cells[1]));
    EXPECT_TRUE(cells[2].starts_with("it ")) << lines[i];
  }
}

}  // namespace
}  // namespace sheaf
