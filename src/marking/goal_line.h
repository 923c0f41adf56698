#pragma once

#include <optional>
#include <span>
#include <string>

#include "input/record_file.h"

namespace sheaf {

/// A line from where a learner stood to where the teacher hopes that they will
/// be, to be drawn beside the scores of probes.
struct GoalLine {
  Date from;  ///< the day of the third probe, whose median is the baseline
  int baseline = 0;
  Date until;
  int goal = 0;  ///< points to be reached on the last day

  /// Where the line is on a day, in points; level behind its last day.
  double at(const Date& day) const;
};

/// What the teacher says of the goal, by option or in the class file.
struct GoalWish {
  std::optional<Date> date;
  /// Points to reach. Without it the goal follows from the rate: baseline +
  /// rate x weeks, the formula of a school district's guide.
  std::optional<int> level;
  /// Growth a week in hundredths of a point. Rates that were measured for
  /// letter sequences: from 1.08 a week (second grade) down to 0.21 (sixth
  /// grade) in one year, 0.92 to 0.46 in another (Fuchs, Fuchs, Hamlett, Walz &
  /// Germann 1993); they are for other words than these, so the teacher sets
  /// the rate.
  int rate_hundredths = 100;
};

/// The middle one of the first three scores; nothing where there are fewer.
std::optional<int> baseline_of(std::span<const int> scores);

/// The line that the wish asks for, whose goal is at most `most` points.
/// Nothing where there is no date, or it is not behind `from`.
std::optional<GoalLine> goal_line(const GoalWish& wish, const Date& from,
                                  int baseline, int most);

}  // namespace sheaf
