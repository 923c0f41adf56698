#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "marking/goal_line.h"
#include "marking/progress.h"

namespace sheaf {

/// A straight line through points, days along and points up.
struct TrendLine {
  double at_start = 0;  ///< on the day of the first point
  double a_day = 0;

  double after(int days) const { return at_start + a_day * days; }
};

/// A point to draw a trend through.
struct TrendPoint {
  int day = 0;  ///< from the first point on
  int value = 0;
};

/// The robust line of H. Theil (1950), A rank-invariant method of linear and
/// polynomial regression analysis, and P. K. Sen (1968), Estimates of the
/// regression coefficient based on Kendall's tau, J. Am. Stat. Assoc. 63:
/// 1379-1389: its slope is the median slope of all pairs of points on different
/// days, its height the median of what the points leave over. One bad day
/// hardly moves it. Nothing where all points are of one day.
std::optional<TrendLine> robust_trend(std::span<const TrendPoint> points);

/// So many probes before a trend is shown: with fewer the slope is mostly
/// chance. The number is ours.
inline constexpr std::size_t kProbesForTrend = 8;
/// So many of the latest probes on end decide.
inline constexpr std::size_t kProbesForDecision = 4;

/// What the probes say about the teaching. The four-point rule of
/// curriculum-based measurement: where the four latest points on end lie below
/// the goal line, the teaching is changed; where they lie above it, the goal is
/// raised (Stecker, Fuchs & Fuchs 2005, Psychology in the Schools 42: 795-819;
/// from memory). How sure such rules are has been doubted (Ardoin, Christ,
/// Morena, Cormier & Klingbeil 2013, Journal of School Psychology 51: 1-18;
/// from memory), so the teacher decides.
enum class GrowthDecision : std::uint8_t {
  no_probes,
  no_baseline,  ///< fewer than three probes
  at_ceiling,   ///< the baseline leaves hardly anything to gain
  no_goal,      ///< nobody said until when
  reached,      ///< the goal is no higher than the baseline
  too_few,      ///< fewer than four probes behind the baseline
  below,
  above,
  mixed,
};

/// A learner's probes on equal ground.
struct Growth {
  /// By date; all with as many words and letter sequences: those of the latest
  /// make-up that three probes or more have, else of the commonest.
  std::vector<SequencePoint> points;
  /// Probes of another make-up, and such as were not written whole.
  int left_out = 0;
  std::optional<int> baseline;  ///< letter sequences
  std::optional<GoalLine> goal;
  std::optional<TrendLine> trend;
  GrowthDecision decision = GrowthDecision::no_probes;

  /// Of each probe.
  int words() const { return points.empty() ? 0 : points.back().words.of; }
  int sequences() const {
    return points.empty() ? 0 : points.back().sequences.possible;
  }
  /// Days from the first probe.
  int day(const Date& date) const;
};

Growth growth_of(const LearnerProgress& learner, const GoalWish& wish);

/// What baseline, goal line, decision and trend are, in words for teachers.
std::vector<RuleText> growth_rule_texts();

/// What to do, in one or two sentences for the teacher.
std::string decision_text(const Growth& growth);
/// "Trend: 1.3 letter pairs more a week", or why there is none yet.
std::string trend_text(const Growth& growth);

}  // namespace sheaf
