#pragma once

#include <span>
#include <vector>

#include "marking/progress.h"

namespace sheaf {

/// Which of the patterns that learners were taught the next check asks for.
/// The numbers are ours.
///
/// - A pattern can be asked for from two weeks after its teaching on.
/// - It waits since the learners last wrote three words with it on one day, or
///   since it was taught: a word or two that came up by chance do not count as
///   seen. Days are those of the calendar, holidays included.
/// - Its turn is its wait, counted double for a learner with whom it is not
///   secure; of several learners the mean. The longest turn is first; where
///   two are even, the one with the smaller share right.
/// - Who has waited for two rounds goes before all others, the longest wait
///   first. A round is as many weeks as it takes to ask for all patterns once.
///
/// So where a check is written each week, three rounds of checks on end never
/// pass over a pattern of which nothing was seen elsewhere: it waits for two,
/// and then only those that have waited as long go before it, each of them
/// once.
struct CheckRules {
  int first_after_days = 14;
  std::size_t patterns = 4;  ///< in one check
  int words_to_be_seen = 3;
};

/// A pattern that can be asked for, with what its place rests on.
struct CheckTurn {
  PatternId pattern = 0;
  double wait_days = 0;  ///< the learners' mean
  double turn = 0;       ///< the same, double with whom it is not secure
  Share all;             ///< of all of them since teaching
  int secure = 0;        ///< learners with whom it is
  int learners = 0;      ///< to whom it was taught
  bool overdue = false;  ///< has waited for two rounds
};

/// The checks on end, with so many patterns, of which one asks for each pattern
/// that is not seen elsewhere in the meantime.
int most_checks_passed_over(std::size_t patterns, const CheckRules& rules = {});

/// All patterns that these learners can be asked for in the week of `week`, in
/// the order of their turns; the check takes the first that it has words for.
std::vector<CheckTurn> check_turns(
    std::span<const LearnerProgress* const> learners, const Date& week,
    const CheckRules& rules = {});

}  // namespace sheaf
