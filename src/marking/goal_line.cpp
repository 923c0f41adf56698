#include "marking/goal_line.h"

#include <algorithm>
#include <array>

namespace sheaf {

int GoalLine::at_day(int days) const {
  return 100 * baseline + rate_hundredths * days / 7;
}

int GoalLine::goal() const { return (at_day(7 * weeks) + 50) / 100; }

std::optional<int> baseline_of(std::span<const int> scores) {
  if (scores.size() < 3) return std::nullopt;
  std::array<int, 3> first = {scores[0], scores[1], scores[2]};
  std::ranges::sort(first);
  return first[1];
}

}  // namespace sheaf
