#include "marking/goal_line.h"

#include <algorithm>
#include <array>

#include "marking/calendar.h"

namespace sheaf {

double GoalLine::at(const Date& day) const {
  const int whole = days_between(from, until);
  const int passed = std::clamp(days_between(from, day), 0, whole);
  return baseline + static_cast<double>(goal - baseline) * passed / whole;
}

std::optional<int> baseline_of(std::span<const int> scores) {
  if (scores.size() < 3) return std::nullopt;
  std::array<int, 3> first = {scores[0], scores[1], scores[2]};
  std::ranges::sort(first);
  return first[1];
}

std::optional<GoalLine> goal_line(const GoalWish& wish, const Date& from,
                                  int baseline, int most) {
  if (!wish.date || *wish.date <= from) return std::nullopt;
  const int days = days_between(from, *wish.date);
  const int risen = baseline + (wish.rate_hundredths * days / 7 + 50) / 100;
  return GoalLine{from, baseline, *wish.date,
                  std::min(most, wish.level.value_or(risen))};
}

}  // namespace sheaf
