// How the steps of a week are given their days and minutes.

#include <gtest/gtest.h>

#include <algorithm>

#include "packet/week.h"

namespace sheaf {
namespace {

SheetKind kind(std::string_view name, DayPart part, int minutes,
               bool daily = false, int first_day = 1) {
  SheetKind k{.name = name, .title = name};
  k.part = part;
  k.daily = daily;
  k.first_day = first_day;
  k.minutes = minutes;
  return k;
}

// A whole week, in the order of a layout.
const SheetKind kWarm = kind("warm", DayPart::warm_up, 3, true);
const SheetKind kFind = kind("find", DayPart::learn, 8);
const SheetKind kCard = kind("card", DayPart::learn, 5);
const SheetKind kBlend = kind("blend", DayPart::blend, 4, true);
const SheetKind kBoxes = kind("boxes", DayPart::spell, 4, true);
const SheetKind kRead = kind("read", DayPart::read, 4, true);
const SheetKind kHear = kind("hear", DayPart::learn, 9);
const SheetKind kFew = kind("few", DayPart::spell, 4, true, 2);
const SheetKind kSort = kind("sort", DayPart::learn, 9);
const SheetKind kOwn = kind("own", DayPart::learn, 10);
const SheetKind kText = kind("text", DayPart::read, 6, true);
const SheetKind kCheck = kind("check", DayPart::check, 14);

const std::vector<const SheetKind*> kWhole = {&kWarm,  &kFind, &kCard, &kBlend,
                                              &kBoxes, &kRead, &kHear, &kFew,
                                              &kSort,  &kOwn,  &kText, &kCheck};

struct Planned {
  std::vector<PlannedSheet> sheets;
  Week week;

  Planned(const std::vector<const SheetKind*>& kinds, int days, int minutes) {
    for (const SheetKind* k : kinds) sheets.push_back({.kind = k});
    week = plan_days(sheets, days, minutes);
  }
  // The names of a day's steps, in order; "-" for one without a sheet.
  std::string day(int number) const {
    std::string text;
    for (const DayStep& step :
         week.days[static_cast<std::size_t>(number - 1)].steps) {
      text += text.empty() ? "" : " ";
      text += step.sheet == DayStep::kNoSheet
                  ? "-"
                  : std::string(sheets[step.sheet].kind->name);
    }
    return text;
  }
  const PlannedSheet& sheet(std::string_view name) const {
    return *std::ranges::find_if(
        sheets, [&](const PlannedSheet& s) { return s.kind->name == name; });
  }
};

TEST(Week, HasARhythm) {
  const Planned plan(kWhole, 5, 25);
  EXPECT_EQ(plan.day(1), "warm find card blend boxes read");
  EXPECT_EQ(plan.day(2), "warm hear blend boxes few read");
  EXPECT_EQ(plan.day(3), "warm sort blend boxes few read");
  EXPECT_EQ(plan.day(4), "warm own blend boxes few text");
  EXPECT_EQ(plan.day(5), "warm check blend text");
  EXPECT_TRUE(plan.week.beyond.empty());
}

// Twenty-eight minutes against twenty-five that were asked for is a fault.
// A step that is not daily may have a day before which it does not come: it
// waits for it where there is less to do, and takes the last day of learning
// where a week is shorter.
TEST(Week, KeepsAStepForItsDay) {
  const SheetKind late = kind("late", DayPart::spell, 5, false, 3);
  const Planned plan({&kFind, &kHear, &late, &kOwn, &kCheck}, 5, 25);
  EXPECT_EQ(plan.sheet("hear").day, 2);
  EXPECT_EQ(plan.sheet("late").day, 3);
  EXPECT_EQ(plan.sheet("own").day, 4);
  const Planned few({&kFind, &late, &kCheck}, 5, 25);
  EXPECT_EQ(few.sheet("late").day, 3);
  const Planned two({&kFind, &late, &kCheck}, 2, 25);
  EXPECT_EQ(two.sheet("late").day, 1);
  EXPECT_TRUE(two.week.beyond.empty());
}

TEST(Week, FillsTheMinutesOfEachDayExactly) {
  for (int days = 1; days <= 7; ++days) {
    for (int minutes = 5; minutes <= 120; ++minutes) {
      const Planned plan(kWhole, days, minutes);
      for (const Day& day : plan.week.days) {
        if (day.steps.empty()) continue;
        EXPECT_EQ(day.minutes(), minutes) << days << " days";
        for (const DayStep& step : day.steps) EXPECT_GT(step.minutes, 0);
      }
    }
  }
}

TEST(Week, LosesNoSheet) {
  for (int days = 1; days <= 7; ++days) {
    for (const int minutes : {5, 10, 15, 25, 45, 90}) {
      const Planned plan(kWhole, days, minutes);
      for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
        const bool beyond =
            std::ranges::find(plan.week.beyond, i) != plan.week.beyond.end();
        EXPECT_EQ(plan.sheets[i].day == 0, beyond)
            << plan.sheets[i].kind->name << ", " << days << " days of "
            << minutes;
      }
    }
  }
}

TEST(Week, WarmsUpForTwoToFourMinutes) {
  for (const int minutes : {15, 25, 40, 60}) {
    const Planned plan(kWhole, 5, minutes);
    for (const Day& day : plan.week.days) {
      EXPECT_EQ(day.steps.front().part, DayPart::warm_up);
      EXPECT_GE(day.steps.front().minutes, 2);
      EXPECT_LE(day.steps.front().minutes, 4);
    }
  }
}

TEST(Week, OfThreeShortDaysKeepsTheRhythm) {
  const Planned plan(kWhole, 3, 15);
  EXPECT_EQ(plan.day(1), "warm find blend boxes read");
  EXPECT_EQ(plan.day(3), "warm check");
  EXPECT_EQ(plan.sheet("few").day, 2);
  // Two days of fifteen minutes have no room for all of what is new.
  EXPECT_FALSE(plan.week.beyond.empty());
}

TEST(Week, OfTwoMeetingsHasAllOfItIfTheyAreLong) {
  const Planned plan(kWhole, 2, 60);
  EXPECT_EQ(plan.day(1), "warm find card hear sort own blend boxes read");
  EXPECT_EQ(plan.day(2), "warm check blend text -");
  // The day between the first and the check is missing.
  ASSERT_EQ(plan.week.beyond.size(), 1U);
  EXPECT_EQ(plan.sheets[plan.week.beyond.front()].kind, &kFew);
}

TEST(Week, GivesSheetsThatComeBackTheirTurns) {
  const Planned plan(kWhole, 5, 25);
  EXPECT_EQ(plan.sheet("boxes").day, 1);
  EXPECT_EQ(plan.sheet("boxes").last_day, 4);
  const DayStep& step = plan.week.days[2].steps[3];
  EXPECT_EQ(plan.sheets[step.sheet].kind, &kBoxes);
  EXPECT_EQ(step.turn, 2);
  EXPECT_EQ(step.turns, 4);
}

TEST(Week, PutsACheckAloneOnTheFirstDay) {
  const Planned plan({&kCheck}, 5, 25);
  EXPECT_EQ(plan.sheets[0].day, 1);
}

TEST(Week, SaysYesterdaysWordsWhereNothingWasTaughtBefore) {
  const Planned plan({&kFind, &kBlend, &kCheck}, 3, 20);
  EXPECT_EQ(plan.day(1), "find blend -");
  EXPECT_EQ(plan.day(2), "- blend -");
  EXPECT_EQ(plan.day(3), "- check blend");
}

TEST(TurnShare, DealsOutAllThings) {
  for (std::size_t things = 1; things < 12; ++things) {
    for (int turns = 1; turns < 6; ++turns) {
      std::size_t next = 0;
      for (int turn = 0; turn < turns; ++turn) {
        const TurnShare share = turn_share(things, turn, turns);
        EXPECT_GE(share.count, 1U);
        EXPECT_LE(share.first + share.count, things);
        if (things >= static_cast<std::size_t>(turns)) {
          EXPECT_EQ(share.first, next);
          next += share.count;
        }
      }
      if (things >= static_cast<std::size_t>(turns)) {
        EXPECT_EQ(next, things);
      }
    }
  }
}

}  // namespace
}  // namespace sheaf
