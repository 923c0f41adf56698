#pragma once

#include <span>
#include <string>
#include <vector>

#include "input/learner_code.h"
#include "marking/progress.h"
#include "marking/sessions.h"

namespace sheaf {

/// A learner of a group, with the patterns of the lesson that the coming week
/// has for them.
struct ComingLesson {
  LearnerCode code;
  std::vector<PatternId> patterns;
};

/// A card of the group's pack that is put in or taken out.
struct CardMove {
  PatternId pattern = 0;
  std::vector<LearnerCode> codes;  ///< for whom, in the order of the group
  bool for_all = false;            ///< that is, for all of the group
};

struct CardMoves {
  /// New patterns in the order of the lessons, then those that slipped.
  std::vector<CardMove> in;
  std::vector<CardMove> out;  ///< in the order of teaching

  bool none() const { return in.empty() && out.empty(); }
};

/// How learners stood before the latest week with records and how they stand
/// after it. Nobody stands anywhere where there are no records.
struct CardEvidence {
  std::vector<LearnerProgress> before, now;
};

/// What the records say, up to the Monday after the latest of them. "Before"
/// is the Monday after the last week with records before that one, so that what
/// lapsed in a holiday is told on its first page and nothing is told twice.
CardEvidence card_evidence(const Sessions& sessions,
                           std::span<const TaughtLesson> lessons,
                           const PatternCatalogue& catalogue,
                           const ProgressRules& rules = {});

/// Which cards a group's pack gains and loses for the coming week. The rule is
/// ours:
///
/// - In, for each learner: a pattern of the coming lesson that was not taught
///   to the learner before; and a pattern that was secure and is to be checked
///   again since the latest week with records.
/// - Out, for each learner: a pattern that became secure in that time.
///
/// Where it holds for some of the group, a move names them.
CardMoves card_moves(std::span<const ComingLesson> group,
                     const CardEvidence& evidence);

/// Cards by the names of their patterns, with codes where a move is not for
/// all: "ck; long a, a_e (B7, C3)". Empty where there are none. Patterns of a
/// lesson's own, which no catalogue has, are left out.
std::string cards_text(std::span<const CardMove> moves,
                       const PatternCatalogue& catalogue);

}  // namespace sheaf
