// What makes a lesson one learner's own: fewer words, words to review.

#include <gtest/gtest.h>

#include <algorithm>

#include "analysis/learner_lesson.h"
#include "analysis/warm_up.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

class LearnerLesson : public testing::Test {
 protected:
  AnalyzedLesson analyzed(const std::string& text) {
    file_ = std::make_unique<SourceFile>("lesson.yaml", text);
    lesson_ = read_lesson(*file_, diagnostics_);
    return analyze(
        lesson_, shared_phonics(), [](std::string_view) { return false; },
        diagnostics_);
  }

  static std::vector<std::string> spelled(
      const std::vector<AnalyzedWord>& words) {
    std::vector<std::string> result;
    for (const AnalyzedWord& word : words) result.push_back(word.reading.word);
    return result;
  }

  std::unique_ptr<SourceFile> file_;
  Lesson lesson_;
  Diagnostics diagnostics_;
};

using Words = std::vector<std::string>;

TEST_F(LearnerLesson, IsTheSameWhereNothingIsAskedFor) {
  const auto lesson = analyzed("pattern: sh\nwords: ship fish brush\n");
  const auto own = lesson_for(lesson, {}, diagnostics_);
  EXPECT_EQ(spelled(own.words), (Words{"ship", "fish", "brush"}));
  EXPECT_EQ(own.code, lesson.code);
}

TEST_F(LearnerLesson, KeepsWordsOfEachPatternInTurnAndTheKeyWords) {
  const auto lesson = analyzed(
      "pattern: ai, ay\nwords: rain sail snail day tray play\n"
      "key-word: tray\n");
  const auto own = lesson_for(lesson, {4, {}}, diagnostics_);
  EXPECT_EQ(own.words.size(), 4U);
  const Words words = spelled(own.words);
  EXPECT_NE(std::ranges::find(words, "tray"), words.end());
  int ai = 0;
  for (const AnalyzedWord& word : own.words) ai += word.pattern() == 0 ? 1 : 0;
  EXPECT_EQ(ai, 2);
  // Key words are found in the shorter list.
  for (std::size_t i = 0; i < own.key_words.size(); ++i) {
    if (lesson.key_words[i] < 0) continue;
    ASSERT_GE(own.key_words[i], 0);
    EXPECT_EQ(
        own.words[static_cast<std::size_t>(own.key_words[i])].reading.word,
        lesson.words[static_cast<std::size_t>(lesson.key_words[i])]
            .reading.word);
  }
  EXPECT_NE(own.code, lesson.code);
}

TEST_F(LearnerLesson, DictatesWordsToReviewAtTheEnd) {
  const auto lesson =
      analyzed("pattern: sh\nwords: ship fish\ndictate-words: ship fish\n");
  const LearnerNeeds needs{0, {{"chin", {}}, {"much", {}}}};
  const auto own = lesson_for(lesson, needs, diagnostics_);
  EXPECT_EQ(spelled(own.dictate_words),
            (Words{"ship", "fish", "chin", "much"}));
  EXPECT_EQ(spelled(own.warm_up.words), (Words{"chin", "much"}));
  EXPECT_LE(own.warm_up.to_say.size(), kWarmUpGraphemes);
  ASSERT_FALSE(own.warm_up.to_say.empty());
  EXPECT_EQ(own.warm_up.to_say.front().grapheme, "ch");
}

TEST_F(LearnerLesson, WarmsUpWithWhatWasTaught) {
  const auto lesson =
      analyzed("pattern: oa\nwords: boat coat\ntaught: sh, ch, ck, ai\n");
  EXPECT_EQ(lesson.warm_up.to_say.size(), kWarmUpGraphemes);
  EXPECT_EQ(lesson.warm_up.to_hear.size(), kWarmUpGraphemes);
  EXPECT_EQ(lesson.warm_up.words.size(), kWarmUpWords);
  for (const AnalyzedWord& word : lesson.warm_up.words) {
    EXPECT_FALSE(word.has_pattern()) << word.reading.word;
  }
}

}  // namespace
}  // namespace sheaf
