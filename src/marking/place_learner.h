#pragma once

#include <optional>
#include <vector>

#include "analysis/placement_check.h"
#include "marking/scores.h"

namespace sheaf {

/// What a learner wrote for a word that part two, as it was dictated to them,
/// does not ask for: it is left out.
struct StrayWord {
  PlacedText target;
  int step = 0;  ///< the word's, as the sequence counts
};

/// Leaves of each learner's words in a session those that were dictated to
/// them, as far as the record says: `marked` and `wrong` are about a whole
/// lesson, and of a check a learner hears a part. Part one goes up to where it
/// stops by its rule, or to the last error in it. Of part two nothing is left
/// unless `part-two` in the record says where it began. Learners whose whole
/// attempts are recorded keep them all. The items of the session are the words
/// to dictate of the check's lesson.
std::vector<StrayWord> keep_dictated(SessionResult& session,
                                     const Record& record,
                                     const PlacementCheck& check,
                                     const PatternCatalogue& catalogue);

/// How many words of part one were right up to where it stops; words in their
/// order, as many as were dictated.
std::size_t right_in_part_one(const std::vector<bool>& right);

/// Where in a sequence a learner is to begin, and what that rests on.
struct PlacedLearner {
  enum class Kind {
    absent,
    part_two_next,  ///< only part one was written; nothing is decided
    step,           ///< all but everything below is known, and little above
    patchy,         ///< steps that are known lie above others that are not
  };
  LearnerCode code;
  Kind kind = Kind::absent;
  /// An index into the steps: the first that is not known, as many as there are
  /// steps where all are. Of a patchy learner nothing.
  std::size_t step = 0;
  /// Between which the truth lies nine times in ten, both included.
  std::size_t low = 0, high = 0;
  /// The first rung of part two, where it is next.
  std::size_t part_two = 0;

  /// What was right of the words asked for each rung; none of others.
  struct RungCount {
    std::size_t rung = 0;
    Share share;
    /// At least two thirds were right.
    bool known() const { return 3 * share.right >= 2 * share.of; }
  };
  std::vector<RungCount> counts;
  /// Of a patchy learner: rungs not known that lie below one that is.
  std::vector<RungCount> gaps;
  /// Patterns taught before the step, and for a patchy learner those between
  /// the gaps, that were missed twice or more and were right less than four
  /// times in five, in whatever words they came up: the most missed first.
  struct Revisit {
    PatternId pattern = 0;
    Share share;
  };
  std::vector<Revisit> revisit;
};

/// How likely a word is right, by where its step lies from the first step that
/// a learner does not know. The numbers are ours; `make calibrate-placement`
/// shows how often they lead to the right step.
struct PlacementModel {
  double known = 0.93;      ///< two steps and more below
  double just_known = 0.7;  ///< the step below
  double at_step = 0.44;
  double unknown = 0.18;  ///< above
  /// How many times likelier a learner without order has to be than one who
  /// knows all up to some step, to be called patchy: a natural logarithm.
  double patchy_from = 1.5;

  double right_at(int steps_above) const {
    return steps_above <= -2   ? known
           : steps_above == -1 ? just_known
           : steps_above == 0  ? at_step
                               : unknown;
  }
};

/// Places one learner by the words that are left of the check. `steps` are all
/// of the sequence; each is as likely to be the first unknown one before
/// anything is known of the learner. Of the steps near each other that fit, the
/// one is taken that is most often at most one step off.
PlacedLearner place_learner(const SessionResult& session,
                            const LearnerResult& learner,
                            const PlacementCheck& check,
                            const std::vector<Taught::Step>& steps,
                            const PatternCatalogue& catalogue,
                            const PlacementModel& model = {});

}  // namespace sheaf
