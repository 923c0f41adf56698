// What each learner comes back to, in which order, and with whom.

#include "marking/calendar.h"
#include "marking/review_plan.h"

#include <gtest/gtest.h>

#include "learner_codes.h"
#include "marking_data.h"

namespace sheaf {
namespace {

using Reason = ReviewItem::Reason;
using State = ProgressState;

constexpr Date kWeek{2026, 3, 30};

PatternProgress pattern(const char* id, State state,
                        std::vector<ProgressPoint> points) {
  PatternProgress p;
  p.pattern = ground().pattern(id);
  p.state = state;
  p.points = std::move(points);
  p.taught = p.points.front().date;
  for (const ProgressPoint& point : p.points) {
    p.all += point.share;
    p.new_words += point.new_words;
    p.last = std::max(p.last, point.date);
  }
  return p;
}

ProgressPoint point(Date date, Share share, Share new_words = {1, 1},
                    State state = State::practising) {
  return {date, Record::Kind::dictation, share, new_words, state};
}

std::vector<LearnerReview> plan(
    std::vector<LearnerProgress> learners,
    const std::vector<SessionResult>& sessions = {},
    const std::vector<TaughtLesson>& lessons = {},
    const ReviewRules& rules = {},
    decltype(ReviewWords::may_be_asked) may_be_asked = {}) {
  return plan_review(
      learners, sessions, lessons, ground().phonics.patterns(),
      {.fresh =
           [](const LearnerCode&, PatternId id) {
             return id == ground().pattern("ai")
                        ? std::vector<std::string>{"rain", "drain", "sail",
                                                   "mail"}
                        : std::vector<std::string>{"one", "two", "three",
                                                   "four"};
           },
       .may_be_asked = may_be_asked},
      kWeek, rules);
}

TEST(Review, PutsWhatSlippedFirst) {
  LearnerProgress b7{code_of("B7"), {}, {}};
  b7.patterns = {
      pattern("sh", State::secure, {point({2026, 3, 1}, {8, 8})}),
      pattern("ai", State::go_on,
              {point({2026, 3, 20}, {8, 8}), point({2026, 3, 26}, {3, 3})}),
      pattern("oa", State::check_again, {point({2026, 3, 27}, {3, 5})}),
      pattern("igh", State::go_on, {point({2026, 3, 27}, {5, 5}, {})})};
  const LearnerReview review = plan({b7}).at(0);
  ASSERT_EQ(review.items.size(), 3U);
  EXPECT_EQ(review.items[0].pattern, ground().pattern("oa"));
  EXPECT_EQ(review.items[0].reason, Reason::slipped);
  EXPECT_EQ(review.items[1].pattern, ground().pattern("sh"));
  EXPECT_EQ(review.items[1].reason, Reason::due);
  EXPECT_EQ(review.items[1].why, "last seen 29 days before; due after 7");
  EXPECT_EQ(review.items[2].pattern, ground().pattern("igh"));
  EXPECT_EQ(review.items[2].reason, Reason::transfer);
}

// Nothing went wrong there: it has its turn after what did.
TEST(Review, WhatWasNotSeenForLongIsDue) {
  LearnerProgress b7{code_of("B7"), {}, {}};
  b7.patterns = {
      pattern("sh", State::check_again, {point({2026, 1, 5}, {8, 8})}),
      pattern("oa", State::check_again, {point({2026, 3, 27}, {3, 5})})};
  b7.patterns[0].unseen = true;
  b7.patterns[0].why = "25/25; last seen 2026-01-05";
  const LearnerReview review = plan({b7}).at(0);
  ASSERT_EQ(review.items.size(), 2U);
  EXPECT_EQ(review.items[0].reason, Reason::slipped);
  EXPECT_EQ(review.items[1].reason, Reason::due);
  EXPECT_EQ(review.items[1].why, "25/25; last seen 2026-01-05");
}

TEST(Review, KnowsASlipThatNoRuleHasSeen) {
  LearnerProgress b7{code_of("B7"), {}, {}};
  b7.patterns = {
      pattern("sh", State::practising,
              {point({2026, 3, 1}, {8, 8}, {1, 1}, State::go_on),
               point({2026, 3, 26}, {2, 5})}),
      pattern("ch", State::practising, {point({2026, 3, 26}, {2, 5})})};
  const LearnerReview review = plan({b7}).at(0);
  ASSERT_EQ(review.items.size(), 2U);
  EXPECT_EQ(review.items[0].reason, Reason::slipped);
  EXPECT_EQ(review.items[0].why,
            "went well before, then 2/5 (40%) right on 2026-03-26");
  EXPECT_EQ(review.items[1].reason, Reason::practising);
}

// 7, 14, 28 and 56 days after so many good days on end.
TEST(Review, GapsGrow) {
  const std::vector<int> weeks = ReviewRules().weeks;
  EXPECT_EQ(review_gap(0, weeks), 7);
  EXPECT_EQ(review_gap(1, weeks), 7);
  EXPECT_EQ(review_gap(2, weeks), 14);
  EXPECT_EQ(review_gap(3, weeks), 28);
  EXPECT_EQ(review_gap(9, weeks), 56);
  LearnerProgress b7{code_of("B7"), {}, {}};
  b7.patterns = {
      pattern("sh", State::go_on,
              {point({2026, 3, 10}, {4, 4}), point({2026, 3, 17}, {4, 4})})};
  EXPECT_TRUE(plan({b7}).at(0).items.empty());  // 13 days, two good ones
  b7.patterns = {
      pattern("sh", State::go_on,
              {point({2026, 3, 10}, {4, 4}), point({2026, 3, 16}, {4, 4})})};
  EXPECT_EQ(plan({b7}).at(0).items.size(), 1U);
}

TEST(Review, GapsAreTheTeachersToSet) {
  LearnerProgress b7{code_of("B7"), {}, {}};
  b7.patterns = {
      pattern("sh", State::go_on,
              {point({2026, 3, 10}, {4, 4}), point({2026, 3, 16}, {4, 4})})};
  ReviewRules rules;
  rules.weeks = {1, 3};
  EXPECT_TRUE(plan({b7}, {}, {}, rules).at(0).items.empty());
  rules.weeks = {2};
  EXPECT_EQ(plan({b7}, {}, {}, rules).at(0).items.size(), 1U);
}

// The plan is for the week of Monday the 30th. What went well for the second
// time on Friday the 13th is due on Friday the 27th, whether there was school
// or not: forgetting takes no holidays.
TEST(Review, HolidaysCountAsTime) {
  LearnerProgress b7{code_of("B7"), {}, {}};
  b7.patterns = {
      pattern("sh", State::go_on,
              {point({2026, 3, 9}, {4, 4}), point({2026, 3, 13}, {4, 4})})};
  ReviewRules rules;
  EXPECT_EQ(plan({b7}, {}, {}, rules).at(0).items.at(0).why,
            "last seen 17 days before; due after 14");
  rules.no_school = {{2026, 3, 18}, {2026, 3, 25}};
  ASSERT_EQ(plan({b7}, {}, {}, rules).at(0).items.size(), 1U);
  EXPECT_EQ(plan({b7}, {}, {}, rules).at(0).items.at(0).why,
            "last seen 17 days before; due after 14, on 2026-03-27 in a week "
            "without school");
}

// A gap of a week after Friday the 20th ends on Friday the 27th, so it is due
// on Monday the 30th; after Tuesday the 24th it is not.
TEST(Review, FridaysPatternIsDueOnMondayWeek) {
  LearnerProgress b7{code_of("B7"), {}, {}};
  b7.patterns = {pattern("sh", State::go_on, {point({2026, 3, 20}, {4, 4})})};
  EXPECT_EQ(plan({b7}).at(0).items.size(), 1U);
  b7.patterns = {pattern("sh", State::go_on, {point({2026, 3, 23}, {4, 4})})};
  EXPECT_EQ(plan({b7}).at(0).items.size(), 1U);
  b7.patterns = {pattern("sh", State::go_on, {point({2026, 3, 24}, {4, 4})})};
  EXPECT_TRUE(plan({b7}).at(0).items.empty());
}

TEST(Review, SchoolBeginsAgainOnAMonday) {
  const std::vector<Date> off = {{2026, 10, 28}, {2026, 11, 2}};
  EXPECT_EQ(first_school_day(off, {2026, 10, 23}), (Date{2026, 10, 23}));
  EXPECT_EQ(first_school_day(off, {2026, 10, 26}), (Date{2026, 11, 9}));
  EXPECT_EQ(first_school_day(off, {2026, 11, 8}), (Date{2026, 11, 9}));
  EXPECT_EQ(first_school_day({}, {2026, 11, 8}), (Date{2026, 11, 8}));
  EXPECT_EQ(monday_of({2026, 11, 8}), (Date{2026, 11, 2}));
  EXPECT_EQ(monday_of({2026, 11, 9}), (Date{2026, 11, 9}));
}

TEST(Review, MissedWordsComeBeforeNewOnes) {
  const SourceFile file("record.yaml",
                        "date: 2026-03-27\nlesson: ai\nmarked: B7\n"
                        "wrong: {B7: {snail: snale, train: trane, paint: "
                        "pant}}\n");
  Diagnostics d;
  const RecordFile records = read_record(file, d);
  std::vector<DictatedItem> items;
  for (const char* word : {"snail", "train", "paint", "wait"}) {
    items.push_back(dictated_item(word, ground().phonics));
  }
  const std::vector<SessionResult> sessions = {
      mark_session(records.records.at(0), {}, items, ground().spellings,
                   ground().phonics, ground().options)};
  const std::vector<TaughtLesson> lessons = {
      {"ai", {ground().pattern("ai")}, {"rain", "snail"}}};
  const auto learners =
      class_progress(sessions, lessons, ground().phonics.patterns());
  const LearnerReview review = plan(learners, sessions, lessons).at(0);
  ASSERT_EQ(review.items.size(), 1U);
  // Two that were missed; rain was practised, so drain is the new one.
  EXPECT_EQ(review.items[0].words,
            (std::vector<std::string>{"snail", "train", "drain"}));
  EXPECT_EQ(review.words(2), (std::vector<std::string>{"snail", "train"}));
  // Nor are they asked again where something in them was not taught.
  const auto no_tr = [](const LearnerCode&, const std::string& word) {
    return word != "train";
  };
  EXPECT_EQ(
      plan(learners, sessions, lessons, {}, no_tr).at(0).items.at(0).words,
      (std::vector<std::string>{"snail", "paint", "drain"}));
}

// B7 practised rain; C3, in another group, never met it.
TEST(Review, WhatOthersPractisedIsNew) {
  const auto session = [](const char* code, const char* lesson) {
    SessionResult one;
    one.date = {2026, 3, 20};
    one.lesson = lesson;
    one.learners.push_back({.code = code_of(code)});
    return one;
  };
  const std::vector<SessionResult> sessions = {session("B7", "red/week-1"),
                                               session("C3", "blue/week-1")};
  const std::vector<TaughtLesson> lessons = {
      {"red/week-1", {ground().pattern("ai")}, {"rain", "drain"}},
      {"blue/week-1", {ground().pattern("ai")}, {"mail"}}};
  std::vector<LearnerProgress> learners;
  for (const char* code : {"B7", "C3"}) {
    learners.push_back(
        {code_of(code),
         {pattern("ai", State::practising, {point({2026, 3, 20}, {2, 5})})},
         {}});
  }
  const auto reviews = plan(learners, sessions, lessons);
  EXPECT_EQ(reviews.at(0).items.at(0).words,
            (std::vector<std::string>{"sail", "mail"}));
  EXPECT_EQ(reviews.at(1).items.at(0).words,
            (std::vector<std::string>{"rain", "drain", "sail"}));
}

TEST(Review, GroupsLearnersByNeed) {
  const PatternId sh = ground().pattern("sh");
  const PatternId oa = ground().pattern("oa");
  const PatternId ai = ground().pattern("ai");
  const auto review = [](const char* code,
                         const std::vector<PatternId>& patterns) {
    LearnerReview one{code_of(code), {}};
    for (const PatternId id : patterns) {
      one.items.push_back({id, Reason::slipped, "", {}});
    }
    return one;
  };
  const auto groups = group_by_need(std::vector<LearnerReview>{
      review("A1", {ai}), review("B7", {sh, oa}), review("C3", {oa}),
      review("D1", {}), review("E2", {oa, sh})});
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_EQ(groups[0].pattern, oa);
  EXPECT_EQ(codes_text(groups[0].codes), "B7, C3, E2");
  EXPECT_EQ(groups[1].pattern, ai);
  EXPECT_EQ(codes_text(groups[1].codes), "A1");

  // Two patterns that two learners need: the more pressing one makes the group,
  // and who is left stands alone with the first need, not with a shared one.
  const auto pairs = group_by_need(std::vector<LearnerReview>{
      review("C3", {sh, oa}), review("D1", {ai, oa}), review("K2", {sh, ai})});
  ASSERT_EQ(pairs.size(), 2U);
  EXPECT_EQ(pairs[0].pattern, sh);
  EXPECT_EQ(codes_text(pairs[0].codes), "C3, K2");
  EXPECT_EQ(pairs[1].pattern, ai);
  EXPECT_EQ(codes_text(pairs[1].codes), "D1");
}

// Who needs the same is put together in one group of the class only.
TEST(Review, GroupsOfTheClassStayApart) {
  const PatternId sh = ground().pattern("sh");
  std::vector<LearnerReview> reviews;
  for (const char* code : {"A1", "B7", "C3", "D1"}) {
    reviews.push_back({code_of(code), {{sh, Reason::slipped, "", {}}}});
  }
  const auto groups = group_by_need(reviews, [](const LearnerCode& code) {
    return code == code_of("A1") ? "red" : "blue";
  });
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_EQ(codes_text(groups[0].codes), "B7, C3, D1");
  EXPECT_EQ(codes_text(groups[1].codes), "A1");
}

TEST(Review, WhatIsSecureIsMissedAndNotSlipped) {
  LearnerProgress b7{code_of("B7"), {}, {}};
  b7.patterns = {
      pattern("oa", State::secure,
              {point({2026, 3, 1}, {11, 11}), point({2026, 3, 26}, {2, 3})})};
  const LearnerReview review = plan({b7}).at(0);
  ASSERT_EQ(review.items.size(), 1U);
  EXPECT_EQ(review.items[0].reason, Reason::missed);
  EXPECT_EQ(review.items[0].why, "2/3 right on 2026-03-26");
}

}  // namespace
}  // namespace sheaf
