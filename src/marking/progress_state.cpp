#include "marking/progress_state.h"

#include <algorithm>
#include <optional>
#include <set>
#include <span>
#include <string>

#include <fmt/format.h>

#include "marking/calendar.h"
#include "marking/likely_range.h"

namespace sheaf {
namespace {

int misses_in(const Share& share) { return share.of - share.right; }

// What a run of days up to some point has shown.
struct Run {
  Share share;
  int new_words = 0;
  std::set<int> days;
  int latest = -1;  // days after teaching

  void add(const ProgressPoint& point, const Date& taught) {
    share += point.share;
    new_words += point.new_words.of;
    days.insert(day_number(point.date));
    latest = std::max(latest, days_between(taught, point.date));
  }

  bool long_enough(const ProgressRules& r) const {
    return share.of >= r.secure_chances &&
           static_cast<int>(days.size()) >= r.secure_days &&
           new_words >= r.secure_new_words && latest >= r.secure_later_days;
  }
};

using Points = std::span<const ProgressPoint>;

// The last days of these, as few as have so many chances; all where they are
// fewer. The records of one day stay together.
Points latest(Points points, int chances) {
  int count = 0;
  std::size_t from = points.size();
  while (from > 0 &&
         (count < chances || (from < points.size() &&
                              points[from - 1].date == points[from].date))) {
    count += points[--from].share.of;
  }
  return points.subspan(from);
}

Share sum_of_points(Points points) {
  Share sum;
  for (const ProgressPoint& point : points) sum += point.share;
  return sum;
}

int days_of(Points points) {
  std::set<int> days;
  for (const ProgressPoint& point : points) {
    days.insert(day_number(point.date));
  }
  return static_cast<int>(days.size());
}

// What was missed while the pattern was new is not held against it for long.
bool too_many_for_long(const PatternProgress& progress, Points points,
                       const ProgressRules& rules) {
  const auto first = std::ranges::find_if(points, [&](const auto& point) {
    return days_between(progress.taught, point.date) >= rules.secure_later_days;
  });
  points = points.subspan(static_cast<std::size_t>(first - points.begin()));
  return misses_in(sum_of_points(latest(points, rules.long_chances))) >
         rules.long_misses;
}

// The longest run of days up to now that has no more misses than are allowed.
Run best_run(const PatternProgress& progress, Points points,
             const ProgressRules& rules) {
  Run best, run;
  for (std::size_t i = points.size(); i-- > 0;) {
    run.add(points[i], progress.taught);
    if (misses_in(run.share) > rules.secure_misses) break;
    if (i == 0 || points[i - 1].date != points[i].date) best = run;
  }
  return best;
}

bool is_secure(const PatternProgress& progress, Points points,
               const ProgressRules& rules) {
  return best_run(progress, points, rules).long_enough(rules) &&
         !too_many_for_long(progress, points, rules);
}

// Enough misses on the last days, which are taken together as long as they
// have no more chances than are "close together"; one day always counts.
bool is_lost(const PatternProgress& progress, Points points,
             const ProgressRules& rules) {
  if (too_many_for_long(progress, points, rules)) return true;
  Share sum, day;
  for (std::size_t i = points.size(); i-- > 0;) {
    day += points[i].share;
    if (i > 0 && points[i - 1].date == points[i].date) continue;
    if (sum.of > 0 && sum.of + day.of > rules.lost_chances) break;
    sum += day;
    day = {};
    if (misses_in(sum) >= rules.lost_misses) return true;
  }
  return false;
}

// The week up to a point; further back where it has fewer than five.
Share week_at(Points points, const ProgressRules& rules) {
  Share week;
  for (std::size_t i = points.size(); i-- > 0;) {
    const int ago = days_between(points[i].date, points.back().date);
    if (ago >= rules.week_days && week.of >= Share::kLeastForPercent) break;
    week += points[i].share;
  }
  return week;
}

std::string so_many(int count, std::string_view one) {
  return fmt::format("{} {}{}", count, one, count == 1 ? "" : "s");
}

// What is still missing before the pattern is secure.
std::string missing_text(const PatternProgress& progress,
                         const ProgressRules& rules) {
  const Run run = best_run(progress, progress.points, rules);
  std::string text;
  const auto add = [&](const std::string& part) {
    text += (text.empty() ? "" : ", ") + part;
  };
  if (run.share.of < rules.secure_chances) {
    add(so_many(rules.secure_chances - run.share.of, "word"));
  }
  const int days = static_cast<int>(run.days.size());
  if (days < rules.secure_days) {
    add(so_many(rules.secure_days - days, "day"));
  }
  if (run.new_words < rules.secure_new_words) {
    add(fmt::format("{} new", rules.secure_new_words - run.new_words));
  }
  if (run.latest < rules.secure_later_days) {
    add(fmt::format(
        "a check from {}",
        date_text(day_after(progress.taught, rules.secure_later_days))));
  }
  if (text.empty()) {
    add(fmt::format("no more than {} misses in {}", rules.long_misses,
                    so_many(rules.long_chances, "word")));
  }
  return text;
}

// Words of the lessons' lists alone: neither new ones nor counts of writing.
Share listed_words(const PatternProgress& progress) {
  Share listed;
  for (const ProgressPoint& point : progress.points) {
    if (point.kind == Record::Kind::writing) continue;
    listed += {point.share.right - point.new_words.right,
               point.share.of - point.new_words.of};
  }
  return listed;
}

std::string needed_text(const PatternProgress& progress,
                        const ProgressRules& rules) {
  switch (progress.state) {
    case ProgressState::practising:
      if (by_heart(progress)) {
        return fmt::format(
            "list {}/{}, new words {}/{}: perhaps known by heart",
            progress.listed.right, progress.listed.of, progress.new_words.right,
            progress.new_words.of);
      }
      return fmt::format("{}% to go on", rules.go_on_percent);
    case ProgressState::go_on:
      return missing_text(progress, rules);
    case ProgressState::secure:
      return {};
    case ProgressState::check_again:
      break;
  }
  if (progress.unseen) {
    return fmt::format("a check; last seen {}, over {} ago",
                       date_text(progress.last),
                       so_many(rules.unseen_weeks, "week"));
  }
  return missing_text(progress, rules);
}

std::string why_text(const PatternProgress& progress) {
  const std::string counts = fmt::format("{}, {}, ", progress.window.text(),
                                         likely_text(progress.window));
  const std::string days =
      fmt::format("on the latest {}", so_many(progress.window_days, "day"));
  switch (progress.state) {
    case ProgressState::practising:
      return counts + "in its latest week; " + progress.needed;
    case ProgressState::go_on:
      return counts + "in its latest week; still needed to be secure: " +
             progress.needed;
    case ProgressState::secure:
      return fmt::format("{}{}; last seen {}", counts, days,
                         date_text(progress.last));
    case ProgressState::check_again:
      break;
  }
  return fmt::format(
      "{}{}; was secure until {}; still needed to be secure: {}", counts, days,
      date_text(progress.slipped_on.value_or(progress.last)), progress.needed);
}

bool unseen_between(const Date& seen, const Date& day,
                    const ProgressRules& rules) {
  return days_between(seen, day) > 7 * rules.unseen_weeks;
}

}  // namespace

bool by_heart(const PatternProgress& progress) {
  constexpr int kFewest = 3;
  return progress.listed.of >= kFewest && progress.new_words.of >= kFewest &&
         progress.listed.reaches(80) && !progress.new_words.reaches(50);
}

void find_states(PatternProgress& progress, const Date& as_of,
                 const ProgressRules& rules) {
  ProgressState state = ProgressState::practising;
  const auto leave_secure = [&](const Date& day) {
    state = ProgressState::check_again;
    progress.secure_since.reset();
    progress.slipped_on = day;
  };
  const Points all = progress.points;
  for (std::size_t i = 0; i < all.size(); ++i) {
    ProgressPoint& point = progress.points[i];
    const Points up_to_now = all.first(i + 1);
    if (state == ProgressState::secure &&
        unseen_between(all[i - 1].date, point.date, rules)) {
      leave_secure(day_after(all[i - 1].date, 7 * rules.unseen_weeks + 1));
    }
    if (state == ProgressState::secure) {
      if (is_lost(progress, up_to_now, rules)) leave_secure(point.date);
    } else if (is_secure(progress, up_to_now, rules)) {
      state = ProgressState::secure;
      progress.secure_since = point.date;
      progress.slipped_on.reset();
    } else if (state != ProgressState::check_again) {
      const Share week = week_at(up_to_now, rules);
      state = week.of >= Share::kLeastForPercent &&
                      week.reaches(rules.go_on_percent)
                  ? ProgressState::go_on
                  : ProgressState::practising;
    }
    point.state = state;
  }
  if (all.empty()) return;
  if (state == ProgressState::secure &&
      unseen_between(all.back().date, as_of, rules)) {
    leave_secure(day_after(all.back().date, 7 * rules.unseen_weeks + 1));
    progress.unseen = true;
  }
  progress.state = state;
  progress.week = week_at(all, rules);
  progress.listed = listed_words(progress);
  const bool of_week =
      state == ProgressState::practising || state == ProgressState::go_on;
  const Points window = latest(all, rules.secure_chances);
  progress.window = of_week ? progress.week : sum_of_points(window);
  progress.window_days = of_week ? 0 : days_of(window);
  progress.needed = needed_text(progress, rules);
  progress.why = why_text(progress);
}

}  // namespace sheaf
