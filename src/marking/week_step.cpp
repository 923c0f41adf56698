#include "marking/week_step.h"

#include <array>

#include <fmt/format.h>

namespace sheaf {

namespace {

constexpr int kSplitPercent = 33;
constexpr int kFewestToSplit = 3;

Share all_patterns(const Score& score) {
  Share sum;
  for (const PatternScore& pattern : score.patterns) sum += pattern.share;
  return sum;
}

}  // namespace

std::string_view week_step_name(WeekStep step) {
  constexpr std::array<std::string_view, 3> kNames = {"go-on", "stay", "split"};
  return kNames[static_cast<std::size_t>(step)];
}

WeekProposal propose_week(const SessionScores& scores,
                          const AdviceRules& rules) {
  WeekProposal proposal;
  Share words, learners;
  for (const Score& score : scores.learners) {
    if (score.absent) continue;
    const Share own = all_patterns(score);
    words += own;
    if (own.of < Share::kLeastForPercent) continue;
    const bool there = own.reaches(rules.go_on_percent);
    learners += {there ? 1 : 0, 1};
    if (!there) proposal.not_there.push_back(score.code);
  }
  if (learners.of == 0) {
    proposal.why = fmt::format("{} right; nobody wrote {} words to tell by",
                               words.text(), Share::kLeastForPercent);
    return proposal;
  }
  proposal.known = true;
  const bool most = 100 * learners.right >= rules.group_percent * learners.of;
  const bool some = 100 * learners.right >= kSplitPercent * learners.of;
  proposal.step = most                                    ? WeekStep::go_on
                  : some && learners.of >= kFewestToSplit ? WeekStep::split
                                                          : WeekStep::stay;
  proposal.why = fmt::format("{} right; {} of {} at {}% or more", words.text(),
                             learners.right, learners.of, rules.go_on_percent);
  if (!proposal.not_there.empty()) {
    proposal.why += "; not there: " + codes_text(proposal.not_there);
  }
  return proposal;
}

}  // namespace sheaf
