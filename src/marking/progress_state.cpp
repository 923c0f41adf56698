#include "marking/progress_state.h"

#include <optional>
#include <set>

#include <fmt/format.h>

#include "marking/calendar.h"

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

  bool few_misses(const ProgressRules& r) const {
    const int times = std::max(1, share.of / r.secure_chances);
    return misses_in(share) <= r.secure_misses * times;
  }
  bool secure(const ProgressRules& r) const {
    return share.of >= r.secure_chances && few_misses(r) &&
           static_cast<int>(days.size()) >= r.secure_days &&
           new_words >= r.secure_new_words && latest >= r.secure_later_days;
  }
};

bool is_secure_at(const PatternProgress& progress, std::size_t last,
                  const ProgressRules& rules) {
  Run run;
  for (std::size_t i = last + 1; i-- > 0;) {
    run.add(progress.points[i], progress.taught);
    if (run.secure(rules)) return true;
  }
  return false;
}

// The week up to a point; further back where it has fewer than five.
Share week_at(const PatternProgress& progress, std::size_t last,
              const ProgressRules& rules) {
  Share week;
  for (std::size_t i = last + 1; i-- > 0;) {
    const int ago =
        days_between(progress.points[i].date, progress.points[last].date);
    if (ago >= rules.week_days && week.of >= Share::kLeastForPercent) break;
    week += progress.points[i].share;
  }
  return week;
}

// What is still missing before the pattern is secure.
std::string missing_text(const PatternProgress& progress,
                         const ProgressRules& rules) {
  Run run;
  for (const ProgressPoint& point : progress.points) {
    run.add(point, progress.taught);
  }
  std::string text;
  const auto add = [&](const std::string& part) {
    text += (text.empty() ? "" : ", ") + part;
  };
  if (run.share.of < rules.secure_chances) {
    const int more = rules.secure_chances - run.share.of;
    add(fmt::format("{} more word{}", more, more == 1 ? "" : "s"));
  }
  const int days = static_cast<int>(run.days.size());
  if (days < rules.secure_days) {
    const int more = rules.secure_days - days;
    add(fmt::format("{} more day{}", more, more == 1 ? "" : "s"));
  }
  if (run.new_words < rules.secure_new_words) {
    const int more = rules.secure_new_words - run.new_words;
    add(fmt::format("{} new word{}", more, more == 1 ? "" : "s"));
  }
  if (run.latest < rules.secure_later_days) {
    add(fmt::format("a check {} days after teaching", rules.secure_later_days));
  }
  if (text.empty()) add("fewer misses");
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

std::string why_text(const PatternProgress& progress, Share since_slip,
                     const ProgressRules& rules) {
  switch (progress.state) {
    case ProgressState::practising:
      if (by_heart(progress)) {
        return fmt::format(
            "list {}/{}, new words {}/{}: perhaps known by heart",
            progress.listed.right, progress.listed.of, progress.new_words.right,
            progress.new_words.of);
      }
      return fmt::format("{} right in the week, {}% to go on",
                         progress.week.text(), rules.go_on_percent);
    case ProgressState::go_on:
      return fmt::format("{} in the week; to be secure: {}",
                         progress.week.text(), missing_text(progress, rules));
    case ProgressState::secure:
      return fmt::format("{} right on {} days, {} of them in new words",
                         progress.all.text(), progress.days,
                         progress.new_words.of);
    case ProgressState::check_again:
      return fmt::format("slipped after it was secure; {} of {} right since",
                         since_slip.right, rules.secure_again);
  }
  return {};
}

// The day since which something holds, if it does.
void keep_first(std::optional<Date>& since, bool holds, const Date& day) {
  if (!holds) {
    since.reset();
  } else if (!since) {
    since = day;
  }
}

bool was_slip_before(const std::optional<Date>& slip, const Date& day) {
  return slip && day > *slip;
}

}  // namespace

bool by_heart(const PatternProgress& progress) {
  constexpr int kFewest = 3;
  return progress.listed.of >= kFewest && progress.new_words.of >= kFewest &&
         progress.listed.reaches(80) && !progress.new_words.reaches(50);
}

void find_states(PatternProgress& progress, const ProgressRules& rules) {
  ProgressState state = ProgressState::practising;
  Share since_slip;
  for (std::size_t i = 0; i < progress.points.size(); ++i) {
    ProgressPoint& point = progress.points[i];
    const bool was_secure =
        state == ProgressState::secure || state == ProgressState::check_again;
    if (was_secure && misses_in(point.share) > 0) {
      state = ProgressState::check_again;
      since_slip = {};
      progress.slipped_on = point.date;
    } else if (state == ProgressState::check_again) {
      if (was_slip_before(progress.slipped_on, point.date)) {
        since_slip += point.share;
      }
      if (since_slip.right >= rules.secure_again) state = ProgressState::secure;
    } else if (state != ProgressState::secure) {
      progress.week = week_at(progress, i, rules);
      const bool enough = progress.week.of >= Share::kLeastForPercent &&
                          progress.week.reaches(rules.go_on_percent);
      state = is_secure_at(progress, i, rules) ? ProgressState::secure
              : enough                         ? ProgressState::go_on
                                               : ProgressState::practising;
    }
    keep_first(progress.secure_since, state == ProgressState::secure,
               point.date);
    point.state = state;
  }
  if (!progress.points.empty()) {
    progress.week = week_at(progress, progress.points.size() - 1, rules);
  }
  progress.listed = listed_words(progress);
  progress.state = state;
  progress.why = why_text(progress, since_slip, rules);
}

}  // namespace sheaf
