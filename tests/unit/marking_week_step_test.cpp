// What a group does next, worked by hand.

#include "marking/week_step.h"

#include <gtest/gtest.h>

#include "learner_codes.h"

namespace sheaf {
namespace {

SessionScores scores(const std::vector<Share>& learners) {
  SessionScores all;
  const char* const codes[] = {"A1", "A2", "A3", "A4", "A5"};
  for (std::size_t i = 0; i < learners.size(); ++i) {
    Score score{.code = code_of(codes[i])};
    score.patterns.push_back({.pattern = 1, .share = learners[i]});
    all.learners.push_back(score);
  }
  return all;
}

TEST(WeekStep, ThreeInFourGoOn) {
  const auto proposal = propose_week(scores({{8, 8}, {7, 8}, {8, 10}, {1, 8}}));
  EXPECT_TRUE(proposal.known);
  EXPECT_EQ(proposal.step, WeekStep::go_on);
  EXPECT_EQ(proposal.why,
            "24/34 (71%) right; 3 of 4 at 80% or more; not there: A4");
}

TEST(WeekStep, OneInThreeSplits) {
  const auto proposal = propose_week(scores({{8, 8}, {2, 8}, {3, 8}}));
  EXPECT_EQ(proposal.step, WeekStep::split);
  EXPECT_EQ(codes_text(proposal.not_there), "A2, A3");
  EXPECT_EQ(propose_week(scores({{8, 8}, {2, 8}, {3, 8}, {1, 8}})).step,
            WeekStep::stay);
  // Two learners are no two groups.
  EXPECT_EQ(propose_week(scores({{8, 8}, {2, 8}})).step, WeekStep::stay);
}

TEST(WeekStep, TooFewWordsSayNothing) {
  const auto proposal = propose_week(scores({{4, 4}, {0, 3}}));
  EXPECT_FALSE(proposal.known);
  EXPECT_EQ(proposal.why, "4/7 (57%) right; nobody wrote 5 words to tell by");
  // Who wrote fewer is not asked, and who was away neither.
  SessionScores some = scores({{8, 8}, {0, 3}, {0, 8}});
  some.learners[2].absent = true;
  EXPECT_EQ(propose_week(some).step, WeekStep::go_on);
  EXPECT_TRUE(propose_week(some).not_there.empty());
}

TEST(WeekStep, SeveralPatternsCountTogether) {
  SessionScores two = scores({{4, 4}});
  two.learners[0].patterns.push_back({.pattern = 2, .share = {0, 4}});
  EXPECT_EQ(propose_week(two).step, WeekStep::stay);
  EXPECT_TRUE(propose_week(two).known);
}

}  // namespace
}  // namespace sheaf
