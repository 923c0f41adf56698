#pragma once

#include <optional>
#include <span>

namespace sheaf {

/// A line from where a learner stands to where the teacher hopes to be, to be
/// drawn beside the scores of the weeks. Formula of a school district's guide:
/// goal = median of three baseline scores + weekly rate x weeks. Rates of
/// growth in letter sequences that were measured: from 1.08 a week (second
/// grade) down to 0.21 (sixth grade) in one year, 0.92 to 0.46 in another
/// (Fuchs, Fuchs, Hamlett, Walz & Germann 1993); they are for other words than
/// these, so the teacher sets the rate.
struct GoalLine {
  int baseline = 0;
  /// Growth a week in hundredths of a point.
  int rate_hundredths = 100;
  int weeks = 0;

  /// Where the line is after so many days, in hundredths of a point.
  int at_day(int days) const;
  /// At the end, in whole points, rounded.
  int goal() const;
};

/// The middle one of the first three scores; nothing where there are fewer.
std::optional<int> baseline_of(std::span<const int> scores);

}  // namespace sheaf
