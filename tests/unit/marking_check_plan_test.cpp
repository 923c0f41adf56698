// Which patterns a check asks for: over a year of them, and by hand.

#include "marking/check_plan.h"

#include <gtest/gtest.h>

#include <functional>
#include <map>
#include <random>

#include "learner_codes.h"
#include "marking/calendar.h"

namespace sheaf {
namespace {

using State = ProgressState;

constexpr Date kFirst{2026, 9, 7};  // a Monday

Date week_after(int weeks) { return day_after(kFirst, 7 * weeks); }

PatternProgress pattern(PatternId id, const Date& taught,
                        std::vector<ProgressPoint> points,
                        State state = State::go_on) {
  PatternProgress p;
  p.pattern = id;
  p.state = state;
  p.taught = taught;
  p.points = std::move(points);
  for (const ProgressPoint& point : p.points) {
    p.all += point.share;
    p.last = std::max(p.last, point.date);
  }
  return p;
}

ProgressPoint point(const Date& date, Share share) {
  return {date, Record::Kind::dictation, share, {}, State::practising};
}

std::vector<PatternId> order(const std::vector<LearnerProgress>& learners,
                             const Date& week, const CheckRules& rules = {}) {
  std::vector<const LearnerProgress*> all;
  for (const LearnerProgress& learner : learners) all.push_back(&learner);
  std::vector<PatternId> patterns;
  for (const CheckTurn& turn : check_turns(all, week, rules)) {
    patterns.push_back(turn.pattern);
  }
  return patterns;
}

// By hand: 28 days since 1 was seen and 14 since 2, with which both are secure;
// 21 since 3, which is not. So 42, 28 and 14. 4 was taught 13 days before.
TEST(CheckPlan, LeastLatelyAndLeastSurelySeenFirst) {
  const LearnerProgress b7{
      code_of("B7"),
      {pattern(1, week_after(-9), {point(week_after(-4), {8, 8})},
               State::secure),
       pattern(2, week_after(-9), {point(week_after(-2), {8, 8})},
               State::secure),
       pattern(3, week_after(-9), {point(week_after(-3), {6, 8})}),
       pattern(4, day_after(kFirst, -13), {point(week_after(-1), {8, 8})})},
      {}};
  EXPECT_EQ(order({b7}, kFirst, {.patterns = 1}),
            (std::vector<PatternId>{3, 1, 2}));
}

// Three patterns, two a check: a round is two weeks, and what has waited for
// two of them goes before what is doubtful.
TEST(CheckPlan, WhoWaitedForTwoRoundsGoesFirst) {
  const auto learner = [](int weeks) {
    return LearnerProgress{
        code_of("B7"),
        {pattern(1, week_after(-9), {point(week_after(-weeks), {8, 8})},
                 State::secure),
         pattern(2, week_after(-9), {point(week_after(-3), {2, 8})}),
         pattern(3, week_after(-9), {point(week_after(-1), {8, 8})})},
        {}};
  };
  EXPECT_EQ(order({learner(3)}, kFirst, {.patterns = 2}),
            (std::vector<PatternId>{2, 1, 3}));
  EXPECT_EQ(order({learner(4)}, kFirst, {.patterns = 2}),
            (std::vector<PatternId>{1, 2, 3}));
  EXPECT_EQ(most_checks_passed_over(3, {.patterns = 2}), 6);
}

// A word or two by chance are no sight of it; where turns are even, the one
// with more misses is first.
TEST(CheckPlan, AWordByChanceIsNoSight) {
  const LearnerProgress b7{
      code_of("B7"),
      {pattern(1, week_after(-9), {point(week_after(-9), {8, 8})}),
       pattern(2, week_after(-9),
               {point(week_after(-9), {8, 8}), point(week_after(-1), {2, 2})}),
       pattern(3, week_after(-9), {point(week_after(-9), {5, 8})}),
       pattern(4, week_after(-9),
               {point(week_after(-9), {8, 8}), point(week_after(-1), {3, 3})})},
      {}};
  EXPECT_EQ(order({b7}, kFirst), (std::vector<PatternId>{3, 1, 2, 4}));
}

// Two of three learners have it: the mean of 7, 7 and twice 7.
TEST(CheckPlan, SeveralLearnersCountAlike) {
  std::vector<LearnerProgress> learners;
  for (const char* code : {"B7", "C3", "D1"}) {
    const bool sure = learners.size() < 2;
    learners.push_back(
        {code_of(code),
         {pattern(1, week_after(-9), {point(week_after(-1), {8, 8})},
                  sure ? State::secure : State::practising)},
         {}});
  }
  std::vector<const LearnerProgress*> all;
  for (const LearnerProgress& learner : learners) all.push_back(&learner);
  const CheckTurn turn = check_turns(all, kFirst).at(0);
  EXPECT_DOUBLE_EQ(turn.wait_days, 7);
  EXPECT_DOUBLE_EQ(turn.turn, 28.0 / 3);
  EXPECT_EQ(turn.secure, 2);
  EXPECT_FALSE(turn.overdue);
}

// A year of 36 weeks of school with two holidays, a new pattern each week and a
// check each week. States change as chance will have it, and now and then a
// learner meets patterns in other lessons.
class Year {
 public:
  explicit Year(unsigned seed) : random_(seed) {
    for (const char* code : {"B7", "C3", "D1", "E2"}) {
      learners_.push_back({code_of(code), {}, {}});
    }
  }

  // Whether a pattern is secure, by its number and a number by chance.
  using IsSecure = std::function<bool(PatternId, int)>;

  void run(const IsSecure& is_secure) {
    int week = 0;
    for (int taught = 0; taught < 36; ++taught, ++week) {
      if (taught == 7 || taught == 15) week += 2;
      check(week_after(week), is_secure);
      teach(static_cast<PatternId>(taught), week_after(week));
    }
  }

  // Checks on end that passed a pattern over, now and at most.
  std::map<PatternId, int> passed_over, longest;
  std::map<PatternId, int> asked_late;  ///< from the 20th week on
  std::vector<std::string> faults;

 private:
  int below(int count) {
    return static_cast<int>(random_() % static_cast<unsigned>(count));
  }

  void teach(PatternId id, const Date& week) {
    for (LearnerProgress& learner : learners_) {
      learner.patterns.push_back(
          pattern(id, week, {point(day_after(week, 4), {7, 8})}));
    }
  }

  void check(const Date& week, const IsSecure& is_secure) {
    std::vector<const LearnerProgress*> all;
    for (LearnerProgress& learner : learners_) {
      for (PatternProgress& p : learner.patterns) {
        p.state = is_secure(p.pattern, below(6)) ? State::secure
                  : below(2) > 0                 ? State::check_again
                                                 : State::go_on;
      }
      all.push_back(&learner);
    }
    const auto turns = check_turns(all, week);
    const CheckRules rules;
    for (std::size_t i = 0; i < turns.size(); ++i) {
      const PatternId id = turns[i].pattern;
      if (i < rules.patterns) {
        passed_over[id] = 0;
        if (week >= week_after(20)) ++asked_late[id];
        write(id, day_after(week, 3));
        continue;
      }
      const int most = most_checks_passed_over(turns.size(), rules);
      longest[id] = std::max(longest[id], ++passed_over[id]);
      if (passed_over[id] >= most) {
        faults.push_back("pattern " + std::to_string(id) + " on " +
                         date_text(week));
      }
    }
  }

  void write(PatternId id, const Date& day) {
    for (LearnerProgress& learner : learners_) {
      for (PatternProgress& p : learner.patterns) {
        if (p.pattern == id) p.points.push_back(point(day, {3, 3}));
        // One word of some other pattern, by chance.
        if (p.pattern != id && below(8) == 0) {
          p.points.push_back(point(day, {1, 1}));
        }
      }
    }
  }

  std::mt19937 random_;
  std::vector<LearnerProgress> learners_;
};

TEST(CheckPlan, NoPatternOfAYearIsPassedOver) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    Year year(seed);
    year.run([](PatternId, int random) { return random % 3 > 0; });
    EXPECT_TRUE(year.faults.empty()) << year.faults.front();
  }
  // Nor where there is nothing to doubt but a few, in which all is wrong.
  for (PatternId few : {1, 4, 12}) {
    Year year(1);
    year.run([&](PatternId id, int) { return id >= few; });
    EXPECT_TRUE(year.faults.empty()) << year.faults.front();
  }
}

// With nothing to doubt they come in turn: in every round of checks each.
TEST(CheckPlan, SurePatternsComeInTurn) {
  Year year(1);
  year.run([](PatternId, int) { return true; });
  for (const auto& [id, checks] : year.longest) {
    EXPECT_LE(checks, 9) << id;  // 34 patterns by four
  }
}

// Every third pattern is never secure: in the second half of the year it is
// asked for more often than the others.
TEST(CheckPlan, WhatIsNotSureComesMoreOften) {
  Year year(1);
  year.run([](PatternId id, int) { return id % 3 > 0; });
  int unsure = 0, sure = 0;
  for (PatternId id = 0; id < 18; ++id) {
    (id % 3 > 0 ? sure : unsure) += year.asked_late[id];
  }
  // Six of them and twelve others.
  EXPECT_GT(2 * unsure, sure * 3 / 2) << unsure << " " << sure;
}

}  // namespace
}  // namespace sheaf
