#include "marking/growth.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "marking/calendar.h"

namespace sheaf {

namespace {

// From so many percent of the letter sequences on, hardly anything is left to
// gain. The number is ours.
constexpr int kCeilingPercent = 95;
constexpr int kBaselineProbes = 3;

double median_of(std::vector<double> values) {
  std::ranges::sort(values);
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half]
                                : (values[half - 1] + values[half]) / 2;
}

bool is_alike(const SequencePoint& a, const SequencePoint& b) {
  return a.words.of == b.words.of &&
         a.sequences.possible == b.sequences.possible;
}

// The probe that all others have to be like: the latest of a make-up that
// enough have for a baseline, so that a new set of forms takes over from an old
// one; else of that which most have. One that was not written whole is no
// measure.
SequencePoint measure_of(std::span<const SequencePoint> points) {
  const SequencePoint* commonest = &points.back();
  std::ptrdiff_t most = 0;
  for (std::size_t i = points.size(); i-- > 0;) {
    const std::ptrdiff_t alike = std::ranges::count_if(
        points,
        [&](const SequencePoint& other) { return is_alike(other, points[i]); });
    if (alike >= kBaselineProbes) return points[i];
    if (alike > most) {
      most = alike;
      commonest = &points[i];
    }
  }
  return *commonest;
}

// Where the latest probes lie, all of them behind the baseline.
GrowthDecision decide(std::span<const SequencePoint> after,
                      const GoalLine& goal) {
  if (after.size() < kProbesForDecision) return GrowthDecision::too_few;
  const auto latest = after.last(kProbesForDecision);
  const auto all = [&](auto lies) {
    return std::ranges::all_of(latest, [&](const SequencePoint& point) {
      return lies(point.sequences.correct, goal.at(point.date));
    });
  };
  if (all([](int value, double line) { return value < line; })) {
    return GrowthDecision::below;
  }
  if (all([](int value, double line) { return value > line; })) {
    return GrowthDecision::above;
  }
  return GrowthDecision::mixed;
}

// Of the whole: the baseline, the goal and what follows.
void set_goal(Growth& growth, const GoalWish& wish) {
  std::vector<int> scores;
  for (const SequencePoint& point : growth.points) {
    scores.push_back(point.sequences.correct);
  }
  growth.baseline = baseline_of(scores);
  if (!growth.baseline) {
    growth.decision = GrowthDecision::no_baseline;
    return;
  }
  const int most = growth.sequences();
  if (100 * *growth.baseline >= kCeilingPercent * most) {
    growth.decision = GrowthDecision::at_ceiling;
    return;
  }
  const Date from = growth.points[kBaselineProbes - 1].date;
  const auto goal = goal_line(wish, from, *growth.baseline, most);
  if (!goal) {
    growth.decision = GrowthDecision::no_goal;
  } else if (goal->goal <= goal->baseline) {
    growth.decision = GrowthDecision::reached;
  } else {
    growth.goal = goal;
    growth.decision =
        decide(std::span(growth.points).subspan(kBaselineProbes), *goal);
  }
}

std::string_view probes(std::size_t count) {
  return count == 1 ? "probe" : "probes";
}

}  // namespace

int Growth::day(const Date& date) const {
  return points.empty() ? 0 : days_between(points.front().date, date);
}

std::optional<TrendLine> robust_trend(std::span<const TrendPoint> points) {
  std::vector<double> slopes;
  for (std::size_t i = 0; i < points.size(); ++i) {
    for (std::size_t k = i + 1; k < points.size(); ++k) {
      const int days = points[k].day - points[i].day;
      if (days == 0) continue;
      slopes.push_back(static_cast<double>(points[k].value - points[i].value) /
                       days);
    }
  }
  if (slopes.empty()) return std::nullopt;
  TrendLine line{.a_day = median_of(std::move(slopes))};
  std::vector<double> rests;
  for (const TrendPoint& point : points) {
    rests.push_back(point.value - line.a_day * point.day);
  }
  line.at_start = median_of(std::move(rests));
  return line;
}

Growth growth_of(const LearnerProgress& learner, const GoalWish& wish) {
  Growth growth;
  for (const SequencePoint& point : learner.sequences) {
    if (point.kind == Record::Kind::probe) growth.points.push_back(point);
  }
  if (growth.points.empty()) return growth;
  const SequencePoint measure = measure_of(growth.points);
  growth.left_out =
      static_cast<int>(std::erase_if(growth.points, [&](const auto& point) {
        return !is_alike(point, measure);
      }));
  set_goal(growth, wish);
  if (growth.points.size() >= kProbesForTrend) {
    std::vector<TrendPoint> points;
    for (const SequencePoint& point : growth.points) {
      points.push_back({growth.day(point.date), point.sequences.correct});
    }
    growth.trend = robust_trend(points);
  }
  return growth;
}

std::vector<RuleText> growth_rule_texts() {
  return {
      {"Baseline",
       "the middle one of the first three probes, in letter sequences."},
      {"Goal line",
       fmt::format("from the baseline on the day of the third probe to the "
                   "goal on its day; none where the baseline is {}% or more.",
                   kCeilingPercent)},
      {"Decision",
       "where the latest four probes behind the baseline all lie below the "
       "goal line, change something in the teaching; where they all lie above "
       "it, set a higher goal (the four-point rule of curriculum-based "
       "measurement; Stecker, Fuchs & Fuchs 2005)."},
      {"Trend",
       fmt::format("from {} probes on, the line whose slope is the median of "
                   "all slopes between two probes (Theil 1950, Sen 1968).",
                   kProbesForTrend)},
      {"Alike",
       "only probes with as many words and letter sequences are compared: the "
       "latest make-up that three probes have, else the commonest."}};
}

std::string decision_text(const Growth& growth) {
  const std::size_t count = growth.points.size();
  switch (growth.decision) {
    case GrowthDecision::no_probes:
      return "There are no probes, so nothing is plotted: weekly lists differ "
             "in length and in what is hard, and their scores would show the "
             "list and not the learner. `sheaf probe` makes short lists that "
             "are alike. Give one every week or two, and write it down with "
             "--kind probe.";
    case GrowthDecision::no_baseline:
      return fmt::format(
          "No baseline yet: it is the middle one of the first three probes, "
          "and there {} {}.",
          count == 1 ? "is" : "are", count);
    case GrowthDecision::at_ceiling:
      return fmt::format(
          "The baseline of {} of {} letter pairs leaves hardly anything to "
          "gain, so there is no goal line. Take the next probes from later "
          "steps.",
          *growth.baseline, growth.sequences());
    case GrowthDecision::no_goal:
      return fmt::format(
          "Baseline: {} letter pairs. No goal line: say until when, with "
          "--goal-date or `goal-date:` in the class file.",
          *growth.baseline);
    case GrowthDecision::reached:
      return fmt::format(
          "The goal is no higher than the baseline of {} letter pairs: set a "
          "higher one.",
          *growth.baseline);
    case GrowthDecision::too_few:
      return fmt::format(
          "Too early to decide: it takes {} probes after the baseline, and "
          "there {} {}.",
          kProbesForDecision, count - 3 == 1 ? "is" : "are", count - 3);
    case GrowthDecision::below:
      return "The latest four probes all lie below the goal line: change "
             "something in the teaching, and note the day.";
    case GrowthDecision::above:
      return "The latest four probes all lie above the goal line: set a higher "
             "goal.";
    case GrowthDecision::mixed:
      break;
  }
  return "The latest four probes do not all lie on one side of the goal line: "
         "go on as now.";
}

std::string trend_text(const Growth& growth) {
  const std::size_t count = growth.points.size();
  if (count == 0) return {};
  if (!growth.trend) {
    return fmt::format("No trend yet: it takes {} probes, and there {} {} {}.",
                       kProbesForTrend, count == 1 ? "is" : "are", count,
                       probes(count));
  }
  const long tenths = std::lround(70 * growth.trend->a_day);
  if (tenths == 0) return "Trend: level.";
  return fmt::format("Trend: {}.{} letter pairs {} a week.",
                     std::abs(tenths) / 10, std::abs(tenths) % 10,
                     tenths > 0 ? "more" : "fewer");
}

}  // namespace sheaf
