// `sheaf patterns`: the catalogue, or one pattern explained.

#include <fmt/format.h>

#include "base/diagnostics.h"
#include "base/nearest.h"
#include "cli/exit_codes.h"
#include "cli/files.h"
#include "cli/verbs.h"
#include "cli/workspace.h"

namespace sheaf {

namespace {

void print_catalogue(const Phonics& phonics) {
  for (const Pattern& p : phonics.patterns().all()) {
    fmt::print("{:<16} {:<44} {}\n", p.id, p.name, p.remark);
  }
}

int print_unclear(const std::string& name, const PatternSearch& search,
                  const Phonics& phonics) {
  if (search.found.empty()) {
    const std::string nearest = did_you_mean(search.nearest);
    fmt::print(stderr, "sheaf: there is no pattern called {}; {}\n",
               sheaf::quoted(name),
               nearest.empty() ? "`sheaf patterns` lists them" : nearest);
  } else {
    fmt::print(stderr, "sheaf: {} could be one of these:\n",
               sheaf::quoted(name));
    for (const PatternId id : search.found) {
      const Pattern& p = phonics.patterns()[id];
      fmt::print(stderr, "  {:<16} {}\n", p.id, p.name);
    }
  }
  return kWrongCommandLine;
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
  const std::string& name = line.arguments.front();
  const PatternSearch search = phonics.patterns().find(name);
  if (search.found.size() != 1) return print_unclear(name, search, phonics);
  explain(phonics, search.found.front());
  return kDone;
}

}  // namespace sheaf
