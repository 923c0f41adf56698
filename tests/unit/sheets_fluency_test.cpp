// Rows to read for a minute: which phrases may be cut out of a sentence, and
// which words of earlier weeks stand among the new ones.

#include <gtest/gtest.h>

#include <set>
#include <string>
#include <vector>

#include "analysis/taught_words.h"
#include "files/disk_files.h"
#include "pictures/picture_book.h"
#include "sheets/fluency_rows.h"
#include "sheets/phrases.h"
#include "unit/analyzed_lesson_fixture.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

using Fluency = AnalyzedLessonTest;

struct Cut {
  const char* sentence;
  std::vector<std::string> phrases;
};

// Written from what English allows, before any sentence was cut.
TEST_F(Fluency, PhrasesAreCutWhereTheyAreWhole) {
  const Cut kCuts[] = {
      {"The fish is on a dish.", {"the fish", "on a dish"}},
      {"The wet fish is on the deck.", {"the wet fish", "on the deck"}},
      {"Gus had a rest in the big shed.", {"in the big shed"}},
      {"Brush the deck of the ship.", {}},
      {"Pick up the cup.", {}},
      {"Put down the bag.", {}},
      {"He ran from the shop with a bag.", {"with a bag"}},
      {"Put it in the box now.", {}},
      {"I gave it to her then.", {}},
      {"Look at the dog run.", {}},
      {"On the mat sat a cat.", {}},
      {"If it is on the bus he can get it.", {}},
      {"In the fish shop, Kim has a chat.", {"in the fish shop"}},
      {"His red hat was under the bed.", {"his red hat", "under the bed"}},
      {"This is the shop.", {}},
      {"That is a fish.", {}},
      {"A man can run.", {"a man"}},
      {"The ship and the shop are wet.", {}},
  };
  for (const Cut& cut : kCuts) {
    const AnalyzedLesson& lesson =
        analyzed(std::string("pattern: sh\nwords: ship\nsentences: |\n  ") +
                 cut.sentence + "\n");
    ASSERT_EQ(lesson.sentences.size(), 1U) << cut.sentence;
    std::vector<std::string> found;
    for (const Phrase& phrase :
         safe_phrases(lesson.sentences[0], shared_phonics().meanings())) {
      found.push_back(phrase.text);
    }
    EXPECT_EQ(found, cut.phrases) << cut.sentence;
  }
}

TEST_F(Fluency, NothingComesTwiceInARow) {
  for (const char* text :
       {"pattern: o_e\nwords: home nose rope bone\n"
        "taught: sh, ch, a_e, short_i, short_o, short_a\n",
        "pattern: sh\nwords: ship shop fish dish\n",
        "pattern: sh, ch\nwords: ship shop chip chop\ntaught: short_i, "
        "short_o\n",
        "pattern: cvc\nwords: cat dog pig hen\n"}) {
    for (const char* seed : {"a", "b", "c"}) {
      const AnalyzedLesson& lesson =
          analyzed(std::string(text) + "seed: " + seed + "\n");
      const OptionValues options(find_sheet_kind("fluency")->options);
      FontLibrary fonts(disk(), SHEAF_FONTS);
      PictureBook book(fonts);
      const LessonPictures pictures(book);
      SheetMemory memory;
      int rows = 0;
      for (const FluencyPart& part : fluency_parts({.lesson = lesson,
                                     .options = options,
                                     .pictures = pictures,
                                     .memory = memory,
                                     .packet = {}})) {
        for (std::size_t i = 1; i < part.items.size(); ++i) {
          EXPECT_NE(part.items[i].text, part.items[i - 1].text)
              << text << seed << ", item " << i;
          ++rows;
        }
      }
      EXPECT_GT(rows, 40) << text;
    }
  }
}

TEST_F(Fluency, TaughtWordsAreOfEarlierPatterns) {
  const AnalyzedLesson& lesson = analyzed(
      "pattern: oa\nwords: boat coat\n"
      "taught: sh, ch, short_i, short_o, short_a\n");
  const auto words = taught_words(lesson, 12);
  EXPECT_EQ(words.size(), 12U);
  std::set<std::string> once;
  for (const AnalyzedWord& word : words) {
    EXPECT_TRUE(once.insert(word.reading.word).second) << word.reading.word;
    EXPECT_FALSE(word.has_pattern()) << word.reading.word;
    EXPECT_TRUE(lesson.taught.is_decodable(word.reading)) << word.reading.word;
  }
  EXPECT_TRUE(taught_words(analyzed("pattern: oa\nwords: boat\n"), 12).empty());
}

}  // namespace
}  // namespace sheaf
