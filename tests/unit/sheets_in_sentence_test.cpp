// Words that sound like another are never dictated bare.

#include <gtest/gtest.h>

#include "sheets/in_sentence.h"
#include "unit/analyzed_lesson_fixture.h"

namespace sheaf {
namespace {

class InSentenceTest : public AnalyzedLessonTest {
 protected:
  // What is said to dictated word `index`: its sentence, "write: not ..." or
  // nothing.
  std::string said(std::size_t index) const {
    const auto found = in_sentence(analyzed_, analyzed_.dictate_words[index]);
    if (!found) return {};
    return found->sentence.empty() ? "write: " + found->not_these()
                                   : found->sentence;
  }
};

TEST_F(InSentenceTest, EveryHomophoneHasASentenceOrALineForOne) {
  analyzed(
      "pattern: igh\nwords: night\n"
      "sentences: |\n  It was a dark night in the wood.\n  I sleep at night.\n"
      "dictate-words: night sight cent mail need ship\n"
      "dictate-sentences: |\n  It is a fine sight.\n  Night is here.\n");
  EXPECT_EQ(said(0), "I sleep at night.");
  EXPECT_EQ(said(1), "It is a fine sight.");
  EXPECT_EQ(said(2), "write: not scent or sent");
  EXPECT_EQ(said(3), "write: not male");
  EXPECT_EQ(said(4), "");
  EXPECT_EQ(said(5), "");
  EXPECT_EQ(said_in_sentences(analyzed_, analyzed_.dictate_words),
            "night (“I sleep at night.”), sight (“It is a fine sight.”), cent "
            "(not scent or sent), mail (not male)");
}

TEST_F(InSentenceTest, SoundsAreThoseOfTheLessonsAccent) {
  const std::string text =
      "pattern: aw\nwords: saw\ndictate-words: saw sauce\n";
  analyzed(text);
  EXPECT_EQ(said(0), "");
  EXPECT_EQ(said(1), "");
  analyzed("accent: british\n" + text);
  EXPECT_EQ(said(0), "write: not soar or sore");
  EXPECT_EQ(said(1), "write: not source");
}

// read in the past is a homophone of red and the other one of reed.
TEST_F(InSentenceTest, TheSentenceHasTheWordAsItIsSaid) {
  analyzed(
      "pattern: short e\nwords: red\nsentences: |\n  I read it.\n"
      "dictate-words: red\n");
  EXPECT_EQ(said(0), "write: not read");
}

}  // namespace
}  // namespace sheaf
