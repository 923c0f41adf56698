// `sheaf placement`: a check that climbs a sequence, for a learner who comes
// new.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "analysis/placement_check.h"
#include "base/utf8.h"
#include "cli/exit_codes.h"
#include "cli/messages.h"
#include "cli/new_file.h"
#include "cli/verbs.h"
#include "driver/make_placement.h"
#include "files/disk_files.h"

namespace sheaf {

namespace {

constexpr std::size_t kLeastPlacementSteps = 3;

std::string step_numbers(const std::vector<PlacementWords::Step>& steps) {
  std::vector<int> numbers;
  for (const PlacementWords::Step& step : steps) numbers.push_back(step.number);
  return fmt::format("step{} {}", steps.size() == 1 ? "" : "s",
                     fmt::join(numbers, ", "));
}

// What the check cannot ask for, and why.
void print_what_is_missing(const MadePlacement& made) {
  if (!made.words.without_pattern.empty()) {
    fmt::print("  no pattern of its own, so no words: {}\n",
               step_numbers(made.words.without_pattern));
  }
  for (const PlacementWords::Step& step : made.words.short_of_words) {
    if (step.words.empty()) {
      fmt::print(
          "  step {} is not asked for: Sheaf knows no word for it that no "
          "lesson uses\n",
          step.number);
    } else {
      fmt::print("  step {} has {} word{} instead of {} in part two: {}\n",
                 step.number, step.words.size(),
                 step.words.size() == 1 ? "" : "s", kPlacementWordsEach,
                 fmt::join(step.words, " "));
    }
  }
  for (const std::string& path : made.unread) {
    fmt::print(
        "  {} has errors: its words may be in the check; `sheaf check` tells "
        "what is wrong\n",
        printable(path));
  }
}

// As the check names it: as seen from its own folder.
std::string name_from(const FilePath& check, const FilePath& sequence) {
  const auto whole = [](const FilePath& path) {
    return disk().absolute(path).lexically_normal();
  };
  return whole(sequence)
      .lexically_relative(whole(check).parent_path())
      .generic_string();
}

}  // namespace

int run_placement(const CommandLine& line) {
  Workspace workspace(disk(), shipped_folder());
  const FilePath sequence(line.arguments.front());
  const FilePath path = line.planning.file.empty()
                            ? sequence.parent_path() / "placement.yaml"
                            : FilePath(line.planning.file);
  Diagnostics diagnostics;
  const MadePlacement made = make_placement(
      workspace, sequence, name_from(path, sequence), diagnostics);
  print(diagnostics);
  if (diagnostics.has_errors()) return kFaultsInFiles;
  if (made.words.part_two.size() < kLeastPlacementSteps) {
    fmt::print(
        stderr,
        "sheaf: Sheaf has words for {} of the steps of {}; a check needs "
        "{} or more to climb\n",
        made.words.part_two.size(), printable(sequence.string()),
        kLeastPlacementSteps);
    print_what_is_missing(made);
    return kFaultsInFiles;
  }
  if (!write_new_file(workspace.files(), path,
                      with_modeline(made.text, "lesson", path))) {
    fmt::print(stderr,
               "sheaf: {} is there already and stays as it is; `--file` names "
               "another file for the check\n",
               printable(path.string()));
    return kMachineFault;
  }
  fmt::print(
      "{}: part one has {} words, part two up to {} of {} steps; none of them "
      "is in "
      "the {} lessons there\n",
      printable(path.string()), made.words.part_one.size(),
      kPlacementWordsEach * PlacementCheck::kAtOnce, made.words.part_two.size(),
      made.lessons);
  print_what_is_missing(made);
  fmt::print(
      "`sheaf build {0}` prints the learner's page, your script and a page for "
      "marks; `sheaf record {0} --class CLASS --date DAY` writes a form for "
      "what was written\n",
      printable(path.string()));
  return kDone;
}

}  // namespace sheaf
