// What comes next after a dictation.

#include "marking/advice.h"

#include <gtest/gtest.h>

#include "learner_codes.h"
#include "marking/score_words.h"
#include "marking_data.h"

namespace sheaf {
namespace {

using Step = Advice::Step;

Score score(std::string_view code, Share share,
            const std::vector<std::pair<Cause, int>>& causes = {}) {
  PatternScore pattern;
  pattern.share = share;
  for (const auto& [cause, count] : causes) {
    pattern.causes[static_cast<std::size_t>(cause)] = count;
  }
  Score result;
  result.code = code_of(code);
  result.patterns.push_back(pattern);
  return result;
}

SessionScores group(std::vector<Score> learners) {
  SessionScores scores;
  scores.group = score("", {});
  for (const Score& learner : learners) {
    scores.group.patterns[0].share += learner.patterns[0].share;
    for (std::size_t i = 0; i < kCauseCount; ++i) {
      scores.group.patterns[0].causes[i] += learner.patterns[0].causes[i];
    }
  }
  scores.learners = std::move(learners);
  return scores;
}

TEST(Advice, GoesOnWhenMostAreThere) {
  const Advice advice =
      advise(group({score("A1", {8, 8}), score("B7", {7, 8}),
                    score("C3", {8, 8}), score("D4", {5, 8})}))[0];
  EXPECT_EQ(advice.step, Step::go_on);
  EXPECT_EQ(codes_text(advice.not_yet), "D4");
  EXPECT_EQ(advice.why, "28/32 (88%) right; 3 of 4 learners at 80% or more");
}

// 75% together, and yet only one is not there: the rest go on.
TEST(Advice, OneLearnerDoesNotHoldUpTheRest) {
  const SessionScores scores =
      group({score("A1", {9, 9}), score("B7", {9, 9}), score("C3", {9, 9}),
             score("K2", {0, 9}, {{Cause::near_sound, 9}})});
  const Advice advice = advise(scores)[0];
  EXPECT_EQ(advice.step, Step::go_on);
  EXPECT_EQ(not_yet_text(advice, scores), "K2 (back to the sounds)");
}

// 80% together, but half of the learners are not there.
TEST(Advice, LooksAtEachLearner) {
  const Advice advice =
      advise(group({score("A1", {10, 10}), score("B7", {10, 10}),
                    score("C3", {6, 10}, {{Cause::other_spelling, 4}}),
                    score("D4", {6, 10}, {{Cause::other_spelling, 4}})}))[0];
  EXPECT_EQ(advice.step, Step::another_set);
  EXPECT_EQ(advice.why,
            "32/40 (80%) right; 2 of 4 learners at 80% or more; in 8 of 8 "
            "misses the spelling was at fault, not the sound");
}

// What follows how learners speak leads nowhere and is told apart.
TEST(Advice, LeavesOutWhatFollowsSpeech) {
  const Advice only =
      advise(group({score("A1", {2, 8}, {{Cause::own_speech, 6}})}))[0];
  EXPECT_EQ(only.step, Step::another_set);
  EXPECT_EQ(only.why, "2/8 (25%) right; 6 follow how they speak");
  const Advice both = advise(group({score(
      "A1", {2, 8}, {{Cause::own_speech, 1}, {Cause::sound_lost, 5}})}))[0];
  EXPECT_EQ(both.step, Step::back_to_sounds);
  EXPECT_EQ(both.why,
            "2/8 (25%) right; in 5 of 5 misses the sound was lost or mixed "
            "up; beside them, 1 follows how they speak");
}

TEST(Advice, GoesBackToTheSoundsWhenTheyAreLost) {
  const Advice advice = advise(
      group({score("A1", {2, 8}, {{Cause::left_out, 4}, {Cause::order, 2}}),
             score("B7", {4, 8},
                   {{Cause::near_sound, 2}, {Cause::other_spelling, 2}})}))[0];
  EXPECT_EQ(advice.step, Step::back_to_sounds);
  EXPECT_EQ(advice.not_yet.size(), 2U);
  EXPECT_NE(advice.why.find("in 8 of 10 misses the sound was lost"),
            std::string::npos)
      << advice.why;
}

TEST(Advice, SaysWhenThereIsTooLittle) {
  const Advice advice =
      advise(group({score("A1", {1, 2}), score("B7", {2, 2})}))[0];
  EXPECT_EQ(advice.step, Step::too_few);
  EXPECT_TRUE(advice.not_yet.empty());
  EXPECT_EQ(advice.why, "3/4 right; it takes at least 5 words to tell");
}

TEST(Advice, IsGivenForOneLearnerToo) {
  EXPECT_EQ(advise(score("A1", {5, 5}))[0].step, Step::go_on);
  const Advice alone =
      advise(score("A1", {3, 6}, {{Cause::not_used_here, 3}}))[0];
  EXPECT_EQ(alone.step, Step::another_set);
  EXPECT_EQ(codes_text(alone.not_yet), "A1");
  AdviceRules strict;
  strict.go_on_percent = 90;
  EXPECT_EQ(advise(score("A1", {8, 10}), strict)[0].step, Step::another_set);
}

TEST(Advice, HasANameForEachStep) {
  EXPECT_EQ(step_name(Step::go_on), "go on");
  EXPECT_EQ(step_name(Step::back_to_sounds), "back to the sounds");
}

}  // namespace
}  // namespace sheaf
