// Each dictated word is said in a sentence, which tells it from those that
// sound like it.

#include <gtest/gtest.h>

#include "layout/text_block.h"
#include "phonics/carriers.h"
#include "sheets/in_sentence.h"
#include "unit/analyzed_lesson_fixture.h"

namespace sheaf {
namespace {

class InSentenceTest : public AnalyzedLessonTest {
 protected:
  InSentence said(std::size_t index) const {
    return in_sentence(analyzed_, analyzed_.dictate_words[index]);
  }
  // As it is printed.
  std::string printed(std::size_t index) const {
    std::string text;
    for (const TextPiece& piece :
         said_pieces(said(index), analyzed_.dictate_words[index], {}, {})) {
      text += piece.text;
    }
    return text;
  }
};

TEST_F(InSentenceTest, TheLessonsOwnComeBeforeThoseOfSheaf) {
  analyzed(
      "pattern: igh\nwords: night\n"
      "sentences: |\n  It was a dark night in the wood.\n  I sleep at night.\n"
      "dictate-words: night sight light grebe\n"
      "dictate-sentences: |\n  It is a fine sight.\n  Night is here.\n");
  EXPECT_EQ(printed(0), "night (not knight): I sleep at night.");
  EXPECT_EQ(printed(1), "sight (not site or cite): It is a fine sight.");
  const std::string carrier(carrier_of(*analyzed_.phonics,
                                       analyzed_.dictate_words[2].reading,
                                       analyzed_.conventions));
  EXPECT_NE(carrier, "");
  EXPECT_EQ(printed(2), "light: " + carrier);
  EXPECT_EQ(printed(3), "grebe");
}

TEST_F(InSentenceTest, SaysWhetherAllHaveOne) {
  analyzed("pattern: igh\nwords: night\ndictate-words: night light grebe\n");
  const auto all = in_sentences(analyzed_, analyzed_.dictate_words);
  ASSERT_EQ(all.size(), 3U);
  EXPECT_EQ(have_sentences(std::span(all).first(2)), HaveSentences::all);
  EXPECT_EQ(have_sentences(all), HaveSentences::some);
  EXPECT_EQ(have_sentences(std::span(all).last(1)), HaveSentences::none);
  EXPECT_EQ(have_sentences({}), HaveSentences::none);
}

TEST_F(InSentenceTest, SoundsAreThoseOfTheLessonsAccent) {
  const std::string text =
      "pattern: aw\nwords: saw\ndictate-words: saw sauce\n";
  analyzed(text);
  EXPECT_TRUE(said(0).alikes.empty());
  EXPECT_TRUE(said(1).alikes.empty());
  analyzed("accent: british\n" + text);
  EXPECT_EQ(said(0).not_these(), "not soar or sore");
  EXPECT_EQ(said(1).not_these(), "not source");
}

// read in the past is a homophone of red and the other one of reed.
TEST_F(InSentenceTest, TheSentenceHasTheWordAsItIsSaid) {
  analyzed(
      "pattern: ee\nwords: feet\nsentences: |\n  I read it last week.\n"
      "dictate-words: read\nsplit:\n  read: r ea=/e/ d\n");
  EXPECT_EQ(said(0).not_these(), "not red");
}

// A British spelling is another word to dictate than the American one.
TEST_F(InSentenceTest, TheSentenceHasTheWordAsItIsSpelled) {
  analyzed("pattern: ay\nwords: day\ndictate-words: gray grey\n");
  EXPECT_NE(said(0).sentence, "");
  EXPECT_EQ(said(1).sentence, "");
}

}  // namespace
}  // namespace sheaf
