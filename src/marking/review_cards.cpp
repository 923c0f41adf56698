#include "marking/review_cards.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <optional>

#include "marking/calendar.h"

namespace sheaf {

namespace {

const PatternProgress* find_card(std::span<const LearnerProgress> learners,
                                 const LearnerCode& code, PatternId pattern) {
  const auto learner =
      std::ranges::find(learners, code, &LearnerProgress::code);
  return learner == learners.end() ? nullptr : learner->find(pattern);
}

bool has_state(const PatternProgress* progress, ProgressState state) {
  return progress != nullptr && progress->state == state;
}

void add_for(const LearnerCode& code, PatternId pattern,
             std::vector<CardMove>& moves) {
  auto move = std::ranges::find(moves, pattern, &CardMove::pattern);
  if (move == moves.end()) {
    move = moves.insert(moves.end(), {.pattern = pattern, .codes = {}});
  }
  // A lesson may name a pattern twice.
  if (move->codes.empty() || move->codes.back() != code) {
    move->codes.push_back(code);
  }
}

// The states of one learner's patterns on both days.
using StateTest = std::function<bool(const PatternProgress* before,
                                     const PatternProgress& now)>;

void add_where(const StateTest& test, std::span<const ComingLesson> group,
               const CardEvidence& evidence, std::vector<CardMove>& moves) {
  for (const ComingLesson& coming : group) {
    const auto learner =
        std::ranges::find(evidence.now, coming.code, &LearnerProgress::code);
    if (learner == evidence.now.end()) continue;
    for (const PatternProgress& now : learner->patterns) {
      const PatternProgress* before =
          find_card(evidence.before, coming.code, now.pattern);
      if (test(before, now)) add_for(coming.code, now.pattern, moves);
    }
  }
}

// The Monday of the last week in which anybody was marked; a form that waits to
// be filled in marks nobody.
std::optional<Date> latest_week(const Sessions& sessions) {
  std::optional<Date> latest;
  for (const SessionResult& session : sessions) {
    if (session.learners.empty()) continue;
    latest = std::max(latest.value_or(session.date), session.date);
  }
  if (latest) latest = monday_of(*latest);
  return latest;
}

}  // namespace

CardEvidence card_evidence(const Sessions& sessions,
                           std::span<const TaughtLesson> lessons,
                           const PatternCatalogue& catalogue,
                           const ProgressRules& rules) {
  const std::optional<Date> latest = latest_week(sessions);
  if (!latest) return {};
  Sessions earlier;
  for (const SessionResult& session : sessions) {
    if (session.date < *latest) earlier.add(session);
  }
  CardEvidence evidence{.before = {},
                        .now = class_progress(sessions, lessons, catalogue,
                                              rules, day_after(*latest, 7))};
  if (const std::optional<Date> last = latest_week(earlier)) {
    evidence.before =
        class_progress(earlier, lessons, catalogue, rules, day_after(*last, 7));
  }
  return evidence;
}

CardMoves card_moves(std::span<const ComingLesson> group,
                     const CardEvidence& evidence) {
  CardMoves moves;
  for (const ComingLesson& coming : group) {
    for (const PatternId pattern : coming.patterns) {
      if (find_card(evidence.now, coming.code, pattern) == nullptr) {
        add_for(coming.code, pattern, moves.in);
      }
    }
  }
  add_where(
      [](const PatternProgress* before, const PatternProgress& now) {
        return has_state(before, ProgressState::secure) &&
               now.state == ProgressState::check_again;
      },
      group, evidence, moves.in);
  add_where(
      [](const PatternProgress* before, const PatternProgress& now) {
        return now.state == ProgressState::secure &&
               !has_state(before, ProgressState::secure);
      },
      group, evidence, moves.out);
  for (std::vector<CardMove>* side : {&moves.in, &moves.out}) {
    for (CardMove& move : *side) {
      move.for_all = move.codes.size() == group.size();
    }
  }
  return moves;
}

std::string cards_text(std::span<const CardMove> moves,
                       const PatternCatalogue& catalogue) {
  std::string text;
  for (const CardMove& move : moves) {
    if (move.pattern >= catalogue.all().size()) continue;
    text += fmt::format("{}{}", text.empty() ? "" : "; ",
                        catalogue[move.pattern].name);
    if (!move.for_all) text += fmt::format(" ({})", codes_text(move.codes));
  }
  return text;
}

}  // namespace sheaf
