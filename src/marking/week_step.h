#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "marking/advice.h"

namespace sheaf {

/// What a group does in the week after a dictation.
enum class WeekStep : std::uint8_t {
  go_on,
  stay,   ///< the same patterns with fresh words
  split,  ///< who is there goes on, the others stay
};
/// "go-on", "stay", "split": as it is printed and as a teacher decides it.
std::string_view week_step_name(WeekStep step);

/// What is proposed to the teacher, who decides.
struct WeekProposal {
  WeekStep step = WeekStep::stay;
  /// Whether there was enough to tell; else nothing is proposed.
  bool known = false;
  /// A sentence with the counts behind it, lower case, no full stop.
  std::string why;
  /// Who has enough words and too few of them right, in the order of the
  /// scores: those who stay if the group splits.
  std::vector<LearnerCode> not_there;
};

/// Counts for each learner the words with any of the patterns that were scored.
/// Five are enough to ask for; 80% right is there. If three in four of those
/// who are asked are there, the group goes on; if one in three or more of three
/// or more, it splits; else it stays. The first two numbers are those of
/// `AdviceRules`, the third is ours.
WeekProposal propose_week(const SessionScores& scores,
                          const AdviceRules& rules = {});

}  // namespace sheaf
