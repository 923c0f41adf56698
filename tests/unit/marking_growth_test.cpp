// Probes over a year: the trend, the goal line, and what is decided by them.

#include "marking/growth.h"

#include <gtest/gtest.h>

#include <array>

#include "learner_codes.h"
#include "marking/calendar.h"
#include "marking/error_examples.h"
#include "marking_data.h"

namespace sheaf {
namespace {

constexpr Date kStart{2026, 1, 12};  // a Monday

// A probe a week, of 10 words and 50 letter sequences.
LearnerProgress learner_with(std::initializer_list<int> sequences) {
  LearnerProgress learner;
  int week = 0;
  for (const int right : sequences) {
    SequencePoint point{.date = day_after(kStart, 7 * week++),
                        .kind = Record::Kind::probe,
                        .sequences = {.correct = right, .possible = 50},
                        .words = {right / 5, 10}};
    learner.sequences.push_back(point);
  }
  return learner;
}

// Up to 2026-06-15, 20 weeks behind the third probe (2026-01-26), one more a
// week: at the fourth probe the line has risen by one.
GoalWish wish() {
  return {
      .date = Date{2026, 6, 15}, .level = std::nullopt, .rate_hundredths = 100};
}

// Source: a school district's quick-start guide: 20 + 1.0 x 30 = 50, and the
// median of 3, 4, 3 is 3.
TEST(GoalLine, IsWorkedAsTheGuideDoes) {
  const Date end = day_after(kStart, 7 * 30);
  const GoalWish guide_wish{
      .date = end, .level = std::nullopt, .rate_hundredths = 100};
  const auto line = goal_line(guide_wish, kStart, 20, 100);
  ASSERT_TRUE(line.has_value());
  EXPECT_EQ(line->goal, 50);
  EXPECT_DOUBLE_EQ(line->at(kStart), 20);
  EXPECT_DOUBLE_EQ(line->at(day_after(kStart, 7)), 21);
  EXPECT_DOUBLE_EQ(line->at(day_after(kStart, 7 * 15)), 35);
  // Level behind its last day, and no higher than there are points.
  EXPECT_DOUBLE_EQ(line->at(day_after(end, 100)), 50);
  EXPECT_EQ(goal_line(guide_wish, kStart, 20, 40)->goal, 40);
  EXPECT_EQ(goal_line(guide_wish, end, 20, 100), std::nullopt);
  EXPECT_EQ(goal_line({}, kStart, 20, 100), std::nullopt);
  const int guide[] = {3, 4, 3};
  EXPECT_EQ(baseline_of(guide), 3);
  // By hand: 12 and 30 are not the middle; only the first three count.
  const int scores[] = {30, 12, 25, 1, 1};
  EXPECT_EQ(baseline_of(scores), 25);
  EXPECT_EQ(baseline_of(std::span(scores).first(2)), std::nullopt);
  // Fuchs et al. 1993: second grade, 1.08 a week; 18 weeks by hand: 19.44.
  const GoalWish second{.date = day_after(kStart, 7 * 18),
                        .level = std::nullopt,
                        .rate_hundredths = 108};
  EXPECT_EQ(goal_line(second, kStart, 60, 100)->goal, 79);
}

// By hand: slopes 2, 2, 2 between the first three; the outlier gives 33, 49 and
// 98, so the median of 2, 2, 2, 33 1/3, 49, 98 is (2 + 33 1/3) / 2. With one
// more point on the line the median is 2.
TEST(Trend, IsHardlyMovedByOneBadDay) {
  const TrendPoint line[] = {{0, 1}, {1, 3}, {2, 5}, {4, 9}, {5, 11}};
  const auto straight = robust_trend(line);
  ASSERT_TRUE(straight.has_value());
  EXPECT_DOUBLE_EQ(straight->a_day, 2);
  EXPECT_DOUBLE_EQ(straight->at_start, 1);
  EXPECT_DOUBLE_EQ(straight->after(10), 21);
  const TrendPoint bad_day[] = {{0, 1}, {1, 3}, {2, 5},
                                {3, 0}, {4, 9}, {5, 11}};
  const auto robust = robust_trend(bad_day);
  ASSERT_TRUE(robust.has_value());
  EXPECT_DOUBLE_EQ(robust->a_day, 2);
  EXPECT_DOUBLE_EQ(robust->at_start, 1);
  const TrendPoint one_day[] = {{0, 1}, {0, 3}};
  EXPECT_EQ(robust_trend(one_day), std::nullopt);
  EXPECT_EQ(robust_trend({}), std::nullopt);
}

// Two points on one day have no slope between them, and still count beside the
// others: slopes by hand 1, 1, 3, 3, that is 2.
TEST(Trend, TakesTwoPointsOfOneDay) {
  const TrendPoint points[] = {{0, 0}, {0, 4}, {2, 6}, {2, 6}};
  EXPECT_DOUBLE_EQ(robust_trend(points)->a_day, 2);
}

TEST(Growth, ShowsNoTrendUnderEightProbes) {
  EXPECT_FALSE(
      growth_of(learner_with({20, 21, 22, 23, 24, 25, 26}), wish()).trend);
  const Growth eight =
      growth_of(learner_with({20, 21, 22, 23, 24, 25, 26, 27}), wish());
  ASSERT_TRUE(eight.trend.has_value());
  EXPECT_EQ(trend_text(eight), "Trend: 1.0 letter pairs more a week.");
  EXPECT_EQ(trend_text(growth_of(learner_with({20}), wish())),
            "No trend yet: it takes 8 probes, and there is 1 probe.");
}

// The baseline is 20 and the line one more a week: 21, 22, 23, 24 behind it.
TEST(Growth, DecidesByTheLatestFour) {
  const auto decision = [](std::initializer_list<int> sequences) {
    return growth_of(learner_with(sequences), wish()).decision;
  };
  using D = GrowthDecision;
  EXPECT_EQ(decision({}), D::no_probes);
  EXPECT_EQ(decision({20, 20}), D::no_baseline);
  EXPECT_EQ(decision({20, 20, 20, 1, 1, 1}), D::too_few);
  EXPECT_EQ(decision({20, 20, 20, 20, 21, 22, 23}), D::below);
  EXPECT_EQ(decision({20, 20, 20, 22, 23, 24, 25}), D::above);
  EXPECT_EQ(decision({20, 20, 20, 20, 21, 22, 25}), D::mixed);
  // On the line is neither.
  EXPECT_EQ(decision({20, 20, 20, 21, 21, 22, 23}), D::mixed);
  // Only the latest four, and only such as are on end.
  EXPECT_EQ(decision({20, 20, 20, 40, 21, 22, 23, 24}), D::below);
  EXPECT_EQ(decision({20, 20, 20, 20, 21, 40, 23, 24, 25}), D::mixed);
}

TEST(Growth, HasNoGoalLineAtTheCeiling) {
  // 47 of 50 is 94%, 48 is 96%.
  const Growth below = growth_of(learner_with({47, 47, 47, 50}), wish());
  EXPECT_EQ(below.decision, GrowthDecision::too_few);
  ASSERT_TRUE(below.goal.has_value());
  EXPECT_EQ(below.goal->goal, 50) << "no more than there are";
  const Growth ceiling = growth_of(learner_with({48, 48, 48, 50}), wish());
  EXPECT_EQ(ceiling.decision, GrowthDecision::at_ceiling);
  EXPECT_FALSE(ceiling.goal.has_value());
}

TEST(Growth, TakesTheGoalThatIsAskedFor) {
  GoalWish asked = wish();
  asked.level = 30;
  const Growth growth = growth_of(learner_with({20, 19, 22, 20}), asked);
  ASSERT_TRUE(growth.goal.has_value());
  EXPECT_EQ(growth.goal->goal, 30);
  EXPECT_EQ(growth.goal->baseline, 20);
  EXPECT_EQ(growth.goal->from, (Date{2026, 1, 26}));
  asked.level = 20;
  EXPECT_EQ(growth_of(learner_with({20, 19, 22, 20}), asked).decision,
            GrowthDecision::reached);
  EXPECT_EQ(growth_of(learner_with({20, 19, 22, 20}), {}).decision,
            GrowthDecision::no_goal);
}

// Other totals are no equal ground, and weekly lists are no probes.
TEST(Growth, LeavesOutWhatIsNotAlike) {
  LearnerProgress learner = learner_with({20, 21, 22});
  learner.sequences[1].sequences.possible = 49;
  SequencePoint list = learner.sequences.front();
  list.kind = Record::Kind::dictation;
  learner.sequences.push_back(list);
  const Growth growth = growth_of(learner, wish());
  EXPECT_EQ(growth.points.size(), 2U);
  EXPECT_EQ(growth.left_out, 1);
  EXPECT_EQ(growth.words(), 10);
  EXPECT_EQ(growth.sequences(), 50);
}

// A new set of forms takes over with its third probe, and one that was not
// written whole never does.
TEST(Growth, IsOfTheLatestSetThatHasABaseline) {
  LearnerProgress learner = learner_with({20, 21, 22, 23, 30, 31, 32});
  const auto is_new = [&](std::size_t i) {
    learner.sequences[i].sequences.possible = 60;
  };
  is_new(6);
  EXPECT_EQ(growth_of(learner, wish()).points.size(), 6U);
  is_new(5);
  EXPECT_EQ(growth_of(learner, wish()).points.size(), 5U);
  is_new(4);
  const Growth taken_over = growth_of(learner, wish());
  EXPECT_EQ(taken_over.points.size(), 3U);
  EXPECT_EQ(taken_over.baseline, 31);
  EXPECT_EQ(taken_over.left_out, 4);
}

SessionResult session_of(std::string_view text,
                         std::initializer_list<std::string_view> words) {
  const SourceFile file("record.yaml", std::string(text));
  Diagnostics d;
  const RecordFile records = read_record(file, d);
  EXPECT_EQ(to_text(d), "");
  std::vector<DictatedItem> items;
  for (const std::string_view word : words) {
    items.push_back(dictated_item(word, ground().phonics));
  }
  return mark_session(records.records.at(0), {}, items, ground().spellings,
                      ground().phonics, ground().options);
}

TEST(ErrorExamples, AreTheLatestOfEachCauseWithTheirDates) {
  const std::array sessions = {
      session_of("date: 2026-03-02\nlesson: ai\nmarked: B7, C3\n"
                 "wrong: {B7: {rain: rane, tail: tale}, C3: {rain: rin}}\n",
                 {"rain", "tail", "snail"}),
      session_of("date: 2026-03-09\nlesson: ai\nmarked: B7\n"
                 "wrong: {B7: {rain: rane, snail: snale, tail: .}}\n",
                 {"rain", "tail", "snail"}),
      session_of("date: 2026-03-16\nlesson: ai\nkind: probe\nmarked: B7\n"
                 "wrong: {B7: {paint: pant}}\n",
                 {"paint"}),
  };
  const auto causes = error_examples(sessions, code_of("B7"), 2);
  ASSERT_EQ(causes.size(), 1U) << "neither blanks nor probes";
  EXPECT_EQ(causes[0].cause, Cause::other_spelling);
  EXPECT_EQ(causes[0].count, 4);
  ASSERT_EQ(causes[0].examples.size(), 2U) << "each word once";
  EXPECT_EQ(causes[0].examples[0].target, "rain");
  EXPECT_EQ(causes[0].examples[0].written, "rane");
  EXPECT_EQ(causes[0].examples[0].date, (Date{2026, 3, 9}));
  EXPECT_EQ(causes[0].examples[1].target, "snail");
  EXPECT_TRUE(error_examples(sessions, code_of("M5"), 2).empty());
}

// What a probe asks of patterns to come is not held for known before.
TEST(Probes, TeachNothingAndCountWhereAPatternWasTaught) {
  const std::array sessions = {
      session_of("date: 2026-03-02\nlesson: ai\nkind: probe\nmarked: B7\n",
                 {"paint", "boat"}),
      session_of("date: 2026-03-09\nlesson: ai\nmarked: B7\n", {"rain"}),
      session_of("date: 2026-03-16\nlesson: oa\nkind: probe\nmarked: B7\n"
                 "wrong: {B7: {snail: snale}}\n",
                 {"snail", "road"}),
  };
  const std::array lessons = {
      TaughtLesson{"ai", {ground().pattern("ai")}, {"rain"}},
      TaughtLesson{"oa", {ground().pattern("oa")}, {}}};
  const auto learners =
      class_progress(sessions, lessons, ground().phonics.patterns());
  ASSERT_EQ(learners.size(), 1U);
  ASSERT_EQ(learners[0].patterns.size(), 1U) << "oa was not taught";
  const PatternProgress& ai = learners[0].patterns[0];
  EXPECT_EQ(ai.all, (Share{1, 2}));
  EXPECT_EQ(ai.new_words, (Share{0, 1}));
  EXPECT_EQ(ai.before, (Share{0, 0}));
  EXPECT_TRUE(learners[0].untaught.empty());
  EXPECT_EQ(learners[0].sequences.size(), 3U);
}

}  // namespace
}  // namespace sheaf
