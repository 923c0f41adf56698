// How the sheets of a week are given their days.

#include <gtest/gtest.h>

#include <algorithm>

#include "packet/week.h"

namespace sheaf {
namespace {

// The minutes of each day.
std::vector<int> days_of(const std::vector<int>& minutes, int days, int most) {
  std::vector<PlannedSheet> sheets;
  for (const int m : minutes) sheets.push_back({.minutes = m});
  plan_days(sheets, days, most);
  std::vector<int> result(static_cast<std::size_t>(days));
  int before = 1;
  for (const PlannedSheet& sheet : sheets) {
    EXPECT_GE(sheet.day, before);
    EXPECT_LE(sheet.day, days);
    before = sheet.day;
    result[static_cast<std::size_t>(sheet.day - 1)] += sheet.minutes;
  }
  return result;
}

using Days = std::vector<int>;

TEST(Week, HasDaysOfAboutTheSameLength) {
  EXPECT_EQ(days_of({10, 10, 10, 10, 10}, 5, 25), (Days{10, 10, 10, 10, 10}));
  EXPECT_EQ(days_of({10, 10, 10, 10}, 2, 25), (Days{20, 20}));
}

// The week of a lesson with a passage: fair shares alone gave the last day 30.
TEST(Week, FillsNoDayBeyondTheLessonIfTheDaysSuffice) {
  for (const int m : days_of({10, 10, 5, 10, 15, 10, 10, 10, 15, 15}, 5, 25)) {
    EXPECT_LE(m, 25);
  }
}

TEST(Week, MakesTheLongestDayShortIfTheyDoNotSuffice) {
  EXPECT_EQ(std::ranges::max(days_of({10, 10, 5, 10, 15, 10, 15, 15}, 3, 25)),
            35);
  EXPECT_EQ(days_of({40}, 1, 25), (Days{40}));
  EXPECT_EQ(days_of({10, 30, 10}, 3, 25), (Days{10, 30, 10}));
}

}  // namespace
}  // namespace sheaf
