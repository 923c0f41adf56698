// `sheaf patterns`: the catalogue, or one pattern explained.

#include <fmt/format.h>

#include "cli/exit_codes.h"
#include "cli/files.h"
#include "cli/planning_arguments.h"
#include "cli/verbs.h"
#include "cli/workspace.h"

namespace sheaf {

namespace {

void print_catalogue(const Phonics& phonics) {
  for (const Pattern& p : phonics.patterns().all()) {
    fmt::print("{:<16} {:<44} {}\n", p.id, p.name, p.remark);
  }
}

void explain(const Phonics& phonics, PatternId id) {
  constexpr std::size_t kWords = 12, kMisses = 6;
  const Pattern& p = phonics.patterns()[id];
  fmt::print("{}: {}\n{}\n", p.id, p.name, p.remark);
  fmt::print("words that have it:\n ");
  for (const std::string& word : phonics.words_with(id, kWords)) {
    fmt::print(" {}", word);
  }
  fmt::print("\n");
  const auto misses = phonics.near_misses(id, kMisses);
  if (!misses.empty()) fmt::print("words that look like it and have not:\n");
  for (const NearMiss& miss : misses) {
    fmt::print("  {}: {}\n", miss.word, miss.why_not);
  }
}

}  // namespace

int run_patterns(const CommandLine& line) {
  Workspace workspace(shipped_folder());
  const Phonics& phonics = workspace.phonics();
  if (line.arguments.empty()) {
    print_catalogue(phonics);
    return kDone;
  }
  const auto pattern = pattern_argument(line.arguments.front(), phonics);
  if (!pattern) return kWrongCommandLine;
  explain(phonics, *pattern);
  return kDone;
}

}  // namespace sheaf
