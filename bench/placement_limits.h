#pragma once

#include <string>
#include <vector>

#include "simulated_newcomer.h"

namespace sheaf::bench {

/// The learners that placing is calibrated with, and the limits that it has to
/// keep for them. Both are ours.

inline constexpr std::uint64_t kPlacementSeed = 20261130;
inline constexpr int kLeastNear = 85;
inline constexpr int kLeastPatchy = 80;
inline constexpr int kMostFalselyPatchy = 5;

/// How a learner's knowledge lies about the step at which it ends.
struct NewcomerKind {
  enum class Limit { none, near, patchy };
  std::string name;
  Limit limit = Limit::none;
  /// What a learner has right whose first unknown step is `truth`; for a patchy
  /// one drawn anew for each learner.
  std::function<RightAt(std::size_t truth, std::size_t steps, Random&)> draw;
};
std::vector<NewcomerKind> newcomer_kinds();

struct PlacementTally {
  int learners = 0;
  int exact = 0, near = 0, within_two = 0, patchy = 0, in_range = 0;
  std::size_t words = 0;

  void add(const PlacedLearner& placed, std::size_t truth);
  double percent(int count) const { return 100.0 * count / learners; }
  double words_each() const {
    return static_cast<double>(words) / static_cast<double>(learners);
  }
};

/// So many learners of a kind at one step.
void try_newcomers(const PlacementTrial& trial, const NewcomerKind& kind,
                   std::size_t truth, int learners, PlacementTally& tally);
/// The same at each step of the sequence, all as often.
PlacementTally try_newcomers(const PlacementTrial& trial,
                             const NewcomerKind& kind, int learners);

bool keeps_limits(const NewcomerKind& kind, const PlacementTally& tally);

}  // namespace sheaf::bench
