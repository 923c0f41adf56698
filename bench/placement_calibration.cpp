// How often `place` names the right step, for learners of whom we know what
// they know: run by `make calibrate-placement`, never part of the tests, which
// hold the limits with fewer learners.
//
//     sheaf_calibrate_placement SHIPPED LEARNERS SEQUENCE ...
//
// SHIPPED is the folder of what comes with Sheaf, LEARNERS how many there are
// of each kind at each step.

#include <fmt/format.h>

#include <cstdlib>
#include <string>
#include <vector>

#include "files/disk_files.h"
#include "placement_limits.h"
#include "simulated_newcomer.h"

namespace sheaf::bench {
namespace {

void print_row(const std::string& name, const PlacementTally& tally) {
  fmt::print(
      "  {:<44} {:>6.1f}% {:>6.1f}% {:>6.1f}% {:>6.1f}% {:>6.1f}% {:>7.1f}\n",
      name, tally.percent(tally.exact), tally.percent(tally.near),
      tally.percent(tally.within_two), tally.percent(tally.patchy),
      tally.percent(tally.in_range), tally.words_each());
}

// The worst of all steps, so that a mean does not hide them.
void print_by_step(const PlacementTrial& trial, int learners) {
  const NewcomerKind kind = newcomer_kinds().front();
  std::string text;
  for (std::size_t truth = 0; truth < trial.steps().size(); ++truth) {
    PlacementTally tally;
    try_newcomers(trial, kind, truth, learners, tally);
    text += fmt::format("{}{}: {:.0f}", text.empty() ? "" : ", ",
                        trial.steps()[truth].number, tally.percent(tally.near));
  }
  fmt::print("  {}: within one step, by step, in percent: {}\n", kind.name,
             text);
}

bool run(const FilePath& shipped, int learners,
         const std::vector<std::string>& sequences) {
  bool good = true;
  fmt::print(
      "{} learners of each kind at each step; seed {}. Columns: the right "
      "step, within one step, within two, called patchy, the truth within the "
      "range that is printed, words dictated.\n",
      learners, kPlacementSeed);
  for (const std::string& sequence : sequences) {
    Workspace workspace(disk(), shipped);
    const PlacementTrial trial(workspace, sequence);
    fmt::print(
        "\n{}: {} steps, {} with words; part one {} words, part two {}\n",
        sequence, trial.steps().size(), trial.check().rungs().size(),
        trial.check().part_one().size(), trial.check().most_in_part_two());
    for (const NewcomerKind& kind : newcomer_kinds()) {
      const PlacementTally tally = try_newcomers(trial, kind, learners);
      print_row(kind.name, tally);
      const bool kept = keeps_limits(kind, tally);
      if (!kept) fmt::print("    LIMIT NOT KEPT\n");
      good = good && kept;
    }
    print_by_step(trial, learners);
  }
  fmt::print(
      "\nLimits: of learners whose knowledge falls off within two steps at "
      "least {}% within one step; of patchy ones at least {}% called so, of "
      "others at most {}%.\n",
      kLeastNear, kLeastPatchy, kMostFalselyPatchy);
  return good;
}

}  // namespace
}  // namespace sheaf::bench

int main(int argc, char** argv) {
  if (argc < 4) {
    fmt::print(stderr,
               "sheaf_calibrate_placement SHIPPED LEARNERS SEQUENCE ...\n");
    return 2;
  }
  return sheaf::bench::run(argv[1], std::max(1, std::atoi(argv[2])),
                           {argv + 3, argv + argc})
             ? 0
             : 1;
}
