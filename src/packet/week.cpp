// How the minutes are dealt out is our own judgement.

#include "packet/week.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <vector>

namespace sheaf {

namespace {

// Minutes that a step may take.
struct Range {
  int least = 0;
  int usual = 0;
  int most = 0;
};

// Two to four minutes: what is known is not taught again.
constexpr Range kWarmUp{2, 3, 4};
// Beside a new step that is longer, this one may have the same day.
constexpr int kShortStep = 5;

Range range_of(const SheetKind& kind) {
  if (kind.part == DayPart::warm_up) return kWarmUp;
  const int usual = std::max(2, kind.minutes);
  // What comes back tomorrow can be cut further than what does not, and a check
  // hardly: all of it is dictated.
  const int least = kind.part == DayPart::check ? usual - usual / 6
                    : kind.daily                ? usual / 2
                                                : (usual * 3 + 4) / 5;
  return {std::max(2, least), usual, usual + (usual + 1) / 2};
}

// How much a plan asks of the steps: first the usual minutes of all, then the
// least of what is daily, then the least of everything.
enum class Pace { usual, short_daily, short_all };
constexpr Pace kPaces[] = {Pace::usual, Pace::short_daily, Pace::short_all};

int minutes_at(const Range& range, bool short_one) {
  return short_one ? range.least : range.usual;
}

class WeekPlanner {
 public:
  WeekPlanner(std::span<PlannedSheet> sheets, int days, int minutes)
      : sheets_(sheets), days_(std::max(1, days)), minutes_(minutes) {
    week_.minutes_a_day = minutes;
    week_.days.resize(static_cast<std::size_t>(days_));
  }

  Week plan() {
    sort_out();
    give_daily_steps();
    give_new_steps();
    if (check_) add(*check_, check_day_);
    for (std::size_t i = 0; i < week_.days.size(); ++i) fill_day(i);
    set_days();
    return std::move(week_);
  }

 private:
  using Group = std::vector<std::size_t>;

  const SheetKind& kind(std::size_t sheet) const {
    return *sheets_[sheet].kind;
  }
  Range range(const DayStep& step) const {
    return step.sheet == DayStep::kNoSheet ? kWarmUp
                                           : range_of(kind(step.sheet));
  }
  Day& day(int number) {
    return week_.days[static_cast<std::size_t>(number - 1)];
  }

  void add(std::size_t sheet, int on) {
    day(on).steps.push_back({.part = kind(sheet).part,
                             .sheet = sheet,
                             .minutes = range_of(kind(sheet)).usual,
                             .day = on});
  }

  void sort_out() {
    for (std::size_t i = 0; i < sheets_.size(); ++i) {
      if (sheets_[i].day == 0) continue;
      if (kind(i).part == DayPart::check && !check_) {
        check_ = i;
      } else if (kind(i).daily) {
        daily_.push_back(i);
      } else {
        new_steps_.push_back(i);
      }
    }
    const bool only_check = daily_.empty() && new_steps_.empty();
    check_day_ = only_check ? 1 : days_;
    learning_days_ = check_ && !only_check ? std::max(1, days_ - 1) : days_;
  }

  // Days that go over what was read or spelled; several sheets for reading take
  // turns, the longer texts last.
  void give_daily_steps() {
    std::vector<std::size_t> reading;
    for (const std::size_t sheet : daily_) {
      const SheetKind& k = kind(sheet);
      if (k.part == DayPart::read) {
        reading.push_back(sheet);
        continue;
      }
      const int last = k.part == DayPart::spell ? learning_days_ : days_;
      if (k.first_day > last) {
        beyond_.push_back(sheet);
        continue;
      }
      for (int d = k.first_day; d <= last; ++d) add(sheet, d);
    }
    const int texts = static_cast<int>(reading.size());
    for (int d = 1; d <= days_ && texts > 0; ++d) {
      // One day with several texts has them all.
      const int first = (d - 1) * texts / days_;
      const int last = std::max(first + 1, d * texts / days_);
      for (int t = first; t < last && t < texts; ++t) {
        add(reading[static_cast<std::size_t>(t)], d);
      }
    }
    const bool warms_up = std::ranges::any_of(daily_, [&](std::size_t sheet) {
      return kind(sheet).part == DayPart::warm_up;
    });
    if (warms_up || (daily_.empty() && new_steps_.empty())) return;
    for (int d = 2; d <= days_; ++d) {
      day(d).steps.push_back(
          {.part = DayPart::warm_up, .minutes = kWarmUp.usual, .day = d});
    }
  }

  int left_for_new_steps(int on, Pace pace) {
    int left = minutes_;
    for (const DayStep& step : day(on).steps) {
      left -= minutes_at(range(step), pace != Pace::usual);
    }
    return left;
  }

  int length(const Group& group, Pace pace) const {
    int sum = 0;
    for (const std::size_t sheet : group) {
      sum += minutes_at(range_of(kind(sheet)), pace == Pace::short_all);
    }
    return sum;
  }

  // The day of each group, where no day has more than `limit` minutes of new
  // steps or than it has room for.
  std::optional<std::vector<int>> fill(const std::vector<Group>& groups,
                                       Pace pace, int limit) {
    std::vector<int> days;
    int on = 1, used = 0;
    for (const Group& group : groups) {
      const int wanted = length(group, pace);
      // Some come only once others have been there.
      const int first = std::min(kind(group.front()).first_day, learning_days_);
      if (on < first) {
        on = first;
        used = 0;
      }
      while (on <= learning_days_ &&
             used + wanted > std::min(limit, left_for_new_steps(on, pace))) {
        ++on;
        used = 0;
      }
      if (on > learning_days_) return std::nullopt;
      days.push_back(on);
      used += wanted;
    }
    return days;
  }

  // A short step goes with the one before it.
  std::vector<Group> grouped(std::size_t count, bool together) const {
    std::vector<Group> groups;
    for (std::size_t i = 0; i < count; ++i) {
      const std::size_t sheet = new_steps_[i];
      const bool may_join =
          kind(sheet).minutes <= kShortStep && kind(sheet).first_day == 1;
      if (together && !groups.empty() && may_join) {
        groups.back().push_back(sheet);
      } else {
        groups.push_back({sheet});
      }
    }
    return groups;
  }

  // Those that all days have room for if nothing takes more than its least.
  std::size_t most_new_steps() const {
    int left = learning_days_ * minutes_;
    std::size_t count = 0;
    for (const std::size_t sheet : new_steps_) {
      left -= range_of(kind(sheet)).least;
      if (left < 0) break;
      ++count;
    }
    return count;
  }

  // The fewest minutes for the fullest day; where the days do not suffice, the
  // last of the new steps are left out.
  void give_new_steps() {
    for (std::size_t count = most_new_steps(); count > 0; --count) {
      for (const Pace pace : kPaces) {
        for (const bool together : {true, false}) {
          const auto groups = grouped(count, together);
          for (int limit = 1; limit <= minutes_; ++limit) {
            const auto days = fill(groups, pace, limit);
            if (!days) continue;
            take(groups, *days);
            beyond_.insert(
                beyond_.end(),
                new_steps_.begin() + static_cast<std::ptrdiff_t>(count),
                new_steps_.end());
            return;
          }
        }
      }
    }
    if (new_steps_.empty()) return;
    // Not even one fits: the first has the first day, and its time is cut.
    add(new_steps_.front(), 1);
    beyond_.insert(beyond_.end(), new_steps_.begin() + 1, new_steps_.end());
  }

  void take(const std::vector<Group>& groups, const std::vector<int>& days) {
    for (std::size_t i = 0; i < groups.size(); ++i) {
      for (const std::size_t sheet : groups[i]) add(sheet, days[i]);
    }
  }

  void fill_day(std::size_t index) {
    std::vector<DayStep>& steps = week_.days[index].steps;
    if (steps.empty()) return;
    std::ranges::stable_sort(steps, {}, &DayStep::part);
    while (shorten(steps)) {
    }
    while (drop_one(steps)) {
    }
    while (lengthen(steps)) {
    }
    const int rest = minutes_ - week_.days[index].minutes();
    if (rest > 0) {
      steps.push_back({.part = DayPart::read,
                       .minutes = rest,
                       .day = static_cast<int>(index) + 1});
    }
  }

  static int sum_of(const std::vector<DayStep>& steps) {
    return std::accumulate(
        steps.begin(), steps.end(), 0,
        [](int sum, const DayStep& step) { return sum + step.minutes; });
  }

  // Takes a minute off the step that is furthest above its least.
  bool shorten(std::vector<DayStep>& steps) const {
    if (sum_of(steps) <= minutes_) return false;
    const auto above = [&](const DayStep& step) {
      return step.minutes - range(step).least;
    };
    const auto most = std::ranges::max_element(steps, {}, above);
    if (above(*most) <= 0) return false;
    --most->minutes;
    return true;
  }

  // How easily a day goes without a step; 0 for what is new.
  int spare(const std::vector<DayStep>& steps, const DayStep& step) const {
    if (step.sheet == DayStep::kNoSheet) return 1;
    if (!kind(step.sheet).daily) return 0;
    const auto has = [&](DayPart part) {
      return std::ranges::count(steps, part, &DayStep::part);
    };
    if (has(step.part) > 1) return 6;
    switch (step.part) {
      case DayPart::blend:
        // The check has asked for these words already.
        return has(DayPart::check) > 0 ? 5 : 3;
      case DayPart::read:
        return 4;
      case DayPart::spell:
        return 2;
      default:
        return 1;
    }
  }

  // A day that is too short even so leaves out what it can go without; a step
  // alone has what there is.
  bool drop_one(std::vector<DayStep>& steps) {
    if (sum_of(steps) <= minutes_) return false;
    if (steps.size() == 1) {
      steps.front().minutes = minutes_;
      return false;
    }
    const auto rank = [&](const DayStep& step) { return spare(steps, step); };
    const auto least = std::ranges::max_element(steps, {}, rank);
    if (rank(*least) != 0) {
      steps.erase(least);
      return true;
    }
    // Only new steps are left: they share what there is.
    const auto longest = std::ranges::max_element(steps, {}, &DayStep::minutes);
    if (longest->minutes > 1) {
      --longest->minutes;
    } else {
      steps.pop_back();
    }
    return true;
  }

  // Gives a minute to the step that is furthest below its most.
  bool lengthen(std::vector<DayStep>& steps) const {
    if (sum_of(steps) >= minutes_) return false;
    const auto below = [&](const DayStep& step) {
      return range(step).most - step.minutes;
    };
    const auto most = std::ranges::max_element(steps, {}, below);
    if (below(*most) <= 0) return false;
    ++most->minutes;
    return true;
  }

  // Days of the sheets and turns of the steps follow from what was given.
  void set_days() {
    std::vector<int> turns(sheets_.size());
    for (PlannedSheet& sheet : sheets_) sheet.day = sheet.last_day = 0;
    for (Day& d : week_.days) {
      for (DayStep& step : d.steps) {
        if (step.sheet == DayStep::kNoSheet) continue;
        PlannedSheet& sheet = sheets_[step.sheet];
        if (sheet.day == 0) sheet.day = step.day;
        sheet.last_day = step.day;
        step.turn = turns[step.sheet]++;
      }
    }
    for (Day& d : week_.days) {
      for (DayStep& step : d.steps) {
        if (step.sheet != DayStep::kNoSheet) step.turns = turns[step.sheet];
      }
    }
    for (const auto* sheets : {&daily_, &new_steps_}) {
      for (const std::size_t sheet : *sheets) {
        if (turns[sheet] == 0 &&
            std::ranges::find(beyond_, sheet) == beyond_.end()) {
          beyond_.push_back(sheet);
        }
      }
    }
    std::ranges::sort(beyond_);
    week_.beyond = std::move(beyond_);
  }

  std::span<PlannedSheet> sheets_;
  int days_;
  int minutes_;
  int learning_days_ = 1;
  int check_day_ = 1;
  std::optional<std::size_t> check_;
  std::vector<std::size_t> daily_;
  std::vector<std::size_t> new_steps_;
  std::vector<std::size_t> beyond_;
  Week week_;
};

}  // namespace

Week plan_days(std::span<PlannedSheet> sheets, int days, int minutes) {
  return WeekPlanner(sheets, days, minutes).plan();
}

}  // namespace sheaf
