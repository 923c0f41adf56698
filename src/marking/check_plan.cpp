#include "marking/check_plan.h"

#include <algorithm>
#include <map>

#include "marking/calendar.h"

namespace sheaf {

namespace {

constexpr int kRoundsToBeOverdue = 2;

int weeks_of_round(std::size_t patterns, const CheckRules& rules) {
  return static_cast<int>((patterns + rules.patterns - 1) / rules.patterns);
}

// The last day on which enough words had the pattern, or that of its teaching.
Date last_seen(const PatternProgress& p, const CheckRules& rules) {
  std::map<Date, int> words;
  for (const ProgressPoint& point : p.points) {
    words[point.date] += point.share.of;
  }
  for (auto day = words.rbegin(); day != words.rend(); ++day) {
    if (day->second >= rules.words_to_be_seen) {
      return std::max(day->first, p.taught);
    }
  }
  return p.taught;
}

// Without a division: a pattern with nothing right and nothing asked is even
// with all others.
bool is_less_sure(const Share& a, const Share& b) {
  return a.right * b.of < b.right * a.of;
}

bool goes_before(const CheckTurn& a, const CheckTurn& b) {
  if (a.overdue != b.overdue) return a.overdue;
  const double first = a.overdue ? a.wait_days : a.turn;
  const double second = a.overdue ? b.wait_days : b.turn;
  if (first != second) return first > second;
  return is_less_sure(a.all, b.all);
}

}  // namespace

int most_checks_passed_over(std::size_t patterns, const CheckRules& rules) {
  return (kRoundsToBeOverdue + 1) * weeks_of_round(patterns, rules);
}

std::vector<CheckTurn> check_turns(
    std::span<const LearnerProgress* const> learners, const Date& week,
    const CheckRules& rules) {
  std::vector<CheckTurn> turns;
  for (const LearnerProgress* learner : learners) {
    for (const PatternProgress& p : learner->patterns) {
      if (days_between(p.taught, week) < rules.first_after_days) continue;
      auto turn = std::ranges::find(turns, p.pattern, &CheckTurn::pattern);
      if (turn == turns.end()) {
        turn = turns.insert(turns.end(), CheckTurn{.pattern = p.pattern});
      }
      const bool secure = p.state == ProgressState::secure;
      const int wait = days_between(last_seen(p, rules), week);
      turn->wait_days += wait;
      turn->turn += secure ? wait : 2 * wait;
      turn->all += p.all;
      turn->secure += secure ? 1 : 0;
      ++turn->learners;
    }
  }
  const int overdue =
      7 * kRoundsToBeOverdue * weeks_of_round(turns.size(), rules);
  for (CheckTurn& turn : turns) {
    turn.wait_days /= turn.learners;
    turn.turn /= turn.learners;
    turn.overdue = turn.wait_days >= overdue;
  }
  std::ranges::stable_sort(turns, goes_before);
  return turns;
}

}  // namespace sheaf
