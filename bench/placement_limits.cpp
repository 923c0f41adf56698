#include "placement_limits.h"

#include <fmt/format.h>

#include <cstdlib>

namespace sheaf::bench {

namespace {

// Known below, unknown above; between them two steps, the last below the truth
// and the truth itself, at one and two thirds of the way down.
RightAt falling(std::size_t truth, double known, double unknown) {
  return [=](std::size_t step) {
    if (step + 1 < truth) return known;
    if (step > truth) return unknown;
    const double down = step == truth ? 2.0 / 3 : 1.0 / 3;
    return known - (known - unknown) * down;
  };
}

RightAt sharp(std::size_t truth, double known, double unknown) {
  return [=](std::size_t step) { return step < truth ? known : unknown; };
}

NewcomerKind fall_kind(double slip, double luck,
                       NewcomerKind::Limit limit = NewcomerKind::Limit::near) {
  return {fmt::format("falls off in two steps, slips {:.0f}%, luck {:.0f}%",
                      100 * slip, 100 * luck),
          limit, [=](std::size_t truth, std::size_t, Random&) {
            return falling(truth, 1 - slip, luck);
          }};
}

NewcomerKind sharp_kind(double slip, double luck) {
  return {fmt::format("ends at once, slips {:.0f}%, luck {:.0f}%", 100 * slip,
                      100 * luck),
          NewcomerKind::Limit::near,
          [=](std::size_t truth, std::size_t, Random&) {
            return sharp(truth, 1 - slip, luck);
          }};
}

// Every step by itself, whatever the others are.
NewcomerKind scattered(double share, NewcomerKind::Limit limit) {
  return {fmt::format("patchy, {:.0f}% of the steps known", 100 * share), limit,
          [=](std::size_t, std::size_t steps, Random& random) -> RightAt {
            std::vector<bool> knows;
            for (std::size_t i = 0; i < steps; ++i) {
              knows.push_back(random.next() < share);
            }
            return [=](std::size_t step) { return knows[step] ? 0.95 : 0.15; };
          }};
}

// All but the truth, and every second step below.
NewcomerKind every_other() {
  return {"patchy, every other step known", NewcomerKind::Limit::patchy,
          [](std::size_t truth, std::size_t, Random&) -> RightAt {
            return [=](std::size_t step) {
              return (step + truth) % 2 == 0 ? 0.95 : 0.15;
            };
          }};
}

}  // namespace

std::vector<NewcomerKind> newcomer_kinds() {
  return {fall_kind(0.05, 0.15),
          fall_kind(0.05, 0.10),
          fall_kind(0.05, 0.20),
          fall_kind(0.10, 0.20, NewcomerKind::Limit::none),
          sharp_kind(0.05, 0.15),
          sharp_kind(0.05, 0.20),
          scattered(0.5, NewcomerKind::Limit::patchy),
          scattered(0.7, NewcomerKind::Limit::none),
          scattered(0.3, NewcomerKind::Limit::none),
          every_other()};
}

void PlacementTally::add(const PlacedLearner& placed, std::size_t truth) {
  ++learners;
  if (placed.kind == PlacedLearner::Kind::patchy) {
    ++patchy;
    return;
  }
  const auto off = static_cast<std::size_t>(
      std::abs(static_cast<int>(placed.step) - static_cast<int>(truth)));
  if (off == 0) ++exact;
  if (off <= 1) ++near;
  if (off <= 2) ++within_two;
  if (placed.low <= truth && truth <= placed.high) ++in_range;
}

void try_newcomers(const PlacementTrial& trial, const NewcomerKind& kind,
                   std::size_t truth, int learners, PlacementTally& tally) {
  Random random(kPlacementSeed + truth * 7919);
  for (int i = 0; i < learners; ++i) {
    const RightAt right = kind.draw(truth, trial.steps().size(), random);
    tally.add(trial.place(right, random), truth);
    tally.words += trial.words_dictated();
  }
}

PlacementTally try_newcomers(const PlacementTrial& trial,
                             const NewcomerKind& kind, int learners) {
  PlacementTally tally;
  for (std::size_t truth = 0; truth < trial.steps().size(); ++truth) {
    try_newcomers(trial, kind, truth, learners, tally);
  }
  return tally;
}

bool keeps_limits(const NewcomerKind& kind, const PlacementTally& tally) {
  const double called = tally.percent(tally.patchy);
  switch (kind.limit) {
    case NewcomerKind::Limit::near:
      return tally.percent(tally.near) >= kLeastNear &&
             called <= kMostFalselyPatchy;
    case NewcomerKind::Limit::patchy:
      return called >= kLeastPatchy;
    case NewcomerKind::Limit::none:
      break;
  }
  return true;
}

}  // namespace sheaf::bench
