#include "reports/school_weeks.h"

#include <algorithm>

namespace sheaf {

namespace {

// The first day of the year 1 was a Monday.
int week_number(const Date& day) { return day_number(day) / 7; }

}  // namespace

SchoolWeeks::SchoolWeeks(std::span<const Date> days) {
  for (const Date& day : days) weeks_.push_back(week_number(day));
  std::ranges::sort(weeks_);
  const auto again = std::ranges::unique(weeks_);
  weeks_.erase(again.begin(), again.end());
}

Date SchoolWeeks::begins(std::size_t week) const {
  return day_after({1, 1, 1}, 7 * weeks_[week]);
}

std::size_t SchoolWeeks::of(const Date& day) const {
  const auto found = std::ranges::find(weeks_, week_number(day));
  return static_cast<std::size_t>(found - weeks_.begin());
}

}  // namespace sheaf
