// `sheaf patterns`: the catalogue, or one pattern explained.

#include <fmt/format.h>

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
    fmt::print(stderr, "sheaf: there is no pattern called `{}`\n", name);
    const std::string nearest = did_you_mean(search.nearest);
    if (!nearest.empty()) fmt::print(stderr, "  {}\n", nearest);
  } else {
    fmt::print(stderr, "sheaf: `{}` could be one of these:\n", name);
    for (const PatternId id : search.found) {
      const Pattern& p = phonics.patterns()[id];
      fmt::print(stderr, "  {:<16} {}\n", p.id, p.name);
    }
  }
  return kWrongCommandLine;
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
  const Pattern& p = phonics.patterns()[search.found.front()];
  fmt::print("{}: {}\n{}\n", p.id, p.name, p.remark);
  return kDone;
}

}  // namespace sheaf
