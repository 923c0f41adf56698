// What is done for a learner in the first items of a sheet, and in which order
// the words of the sound boxes stand.

#include <gtest/gtest.h>

#include <algorithm>

#include "files/disk_files.h"
#include "pictures/picture_book.h"
#include "sheets/box_words.h"
#include "sheets/given_letters.h"
#include "sheets/sheet.h"
#include "text/font_library.h"
#include "unit/analyzed_lesson_fixture.h"

namespace sheaf {
namespace {

class GivenLetters : public AnalyzedLessonTest {
 protected:
  // The letters that are printed, with a dash for each that is not.
  using Choice = std::vector<bool> (*)(const AnalyzedWord&);
  std::string shown(const std::string& text, Choice choice) {
    const AnalyzedWord& word = analyzed(text).words.front();
    const std::vector<bool> given = given_bytes(word, choice(word));
    std::string letters = word.reading.word;
    for (std::size_t i = 0; i < letters.size(); ++i) {
      if (!given[i]) letters[i] = '-';
    }
    return letters;
  }

  std::vector<std::string> order(const std::string& text, bool model,
                                 const LessonPictures& pictures) {
    const AnalyzedLesson& lesson = analyzed(text);
    const OptionTable table = find_sheet_kind("sound-boxes")->options;
    std::vector<OptionSpec> specs(table.begin(), table.end());
    for (OptionSpec& spec : specs) {
      if (spec.name == "model") spec.fallback = model ? "yes" : "no";
    }
    const OptionValues options(specs);
    SheetMemory memory;
    std::vector<std::string> words;
    for (const AnalyzedWord* word :
         box_words({lesson, options, pictures, memory, {}}, options)) {
      words.push_back(word->reading.word);
    }
    return words;
  }

  FontLibrary fonts_{disk(), SHEAF_FONTS};
};

TEST_F(GivenLetters, LeaveThePatternToTheLearner) {
  EXPECT_EQ(shown("pattern: sh\nwords: ship\n", half_given), "--ip");
  EXPECT_EQ(shown("pattern: a_e\nwords: cake\n", half_given), "c-k-");
  EXPECT_EQ(shown("pattern: short_i\nwords: pig\n", half_given), "p-g");
  EXPECT_EQ(
      shown("pattern: ing_double\nwords: running\n", half_given).find("ing"),
      std::string::npos);
}

TEST_F(GivenLetters, AreNeverTheWholeWord) {
  // These patterns are no graphemes of the word, or all of them.
  EXPECT_EQ(shown("pattern: cvc\nwords: pig\n", half_given), "p--");
  EXPECT_EQ(shown("pattern: compound\nwords: sunset\n", half_given), "sun---");
  for (const char* lesson :
       {"pattern: [ai, short_i]\nwords: aim\n",
        "pattern: [sh, ee]\nwords: she\n", "pattern: oo_long\nwords: zoo\n",
        "pattern: igh\nwords: sigh\n"}) {
    EXPECT_NE(shown(lesson, half_given).find('-'), std::string::npos) << lesson;
    EXPECT_NE(shown(lesson, one_given).find('-'), std::string::npos) << lesson;
  }
}

TEST_F(GivenLetters, FadeToOneConsonant) {
  EXPECT_EQ(shown("pattern: sh\nwords: ship\n", one_given), "---p");
  EXPECT_EQ(shown("pattern: sh\nwords: brush\n", one_given), "b----");
  EXPECT_EQ(shown("pattern: a_e\nwords: cake\n", one_given), "c---");
}

TEST_F(GivenLetters, TheWordThatIsDoneComesFirstAndTheOthersKeepTheirPlaces) {
  PictureBook book(fonts_);
  const LessonPictures pictures(book);
  const std::string text =
      "pattern: sh\nwords: brush shelf splash ship shut dish\n"
      "key-word: ship\n";
  const auto plain = order(text, false, pictures);
  const auto with = order(text, true, pictures);
  ASSERT_EQ(plain.size(), 6U);
  ASSERT_EQ(with.size(), 6U);
  EXPECT_EQ(with.front(), "ship");
  int moved = 0;
  for (std::size_t i = 0; i < plain.size(); ++i) {
    if (plain[i] != with[i]) ++moved;
  }
  EXPECT_LE(moved, 2);
  EXPECT_TRUE(std::ranges::is_permutation(plain, with));
}

TEST_F(GivenLetters, ALongKeyWordIsNoModel) {
  PictureBook book(fonts_);
  const LessonPictures pictures(book);
  EXPECT_EQ(order("pattern: sh\nwords: astonishing fishes dish shelf\n"
                  "key-word: astonishing\n",
                  true, pictures)
                .front(),
            "dish");
}

// What a sheet is for decides whether something is done on it: those that let
// learners find the pattern, or test it, give nothing away.
TEST(Models, AreOnNoSheetThatTestsOrLetsFindOut) {
  for (const char* name : {"discovery", "picture-sort", "mark-sheet"}) {
    const SheetKind* kind = find_sheet_kind(name);
    ASSERT_NE(kind, nullptr) << name;
    EXPECT_TRUE(std::ranges::none_of(
        kind->options,
        [](const OptionSpec& option) { return option.name == "model"; }))
        << name;
  }
}

}  // namespace
}  // namespace sheaf
