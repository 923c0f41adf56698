// `sheaf patterns`: the catalogue, or one pattern explained.

#include <fmt/format.h>

#include <algorithm>

#include "cli/exit_codes.h"
#include "cli/planning_arguments.h"
#include "cli/verbs.h"
#include "driver/workspace.h"
#include "files/disk_files.h"
#include "phonics/pattern_terms.h"
#include "phonics/pattern_text.h"

namespace sheaf {

namespace {

// The families in the order of the catalogue, each with what else it may be
// called.
void print_catalogue(const Phonics& phonics) {
  const auto all = phonics.patterns().all();
  std::vector<std::string_view> families;
  for (const Pattern& p : all) {
    if (std::ranges::find(families, p.family) == families.end()) {
      families.push_back(p.family);
    }
  }
  for (const std::string_view family : families) {
    fmt::print("{}\n", family);
    std::string terms;
    for (const PatternTerm& term : pattern_terms()) {
      if (term.family != family) continue;
      // The commonest of a row, or the others where that is the heading.
      const bool heads = name_words(term.terms.front()) == name_words(family);
      for (const std::string_view name : term.terms) {
        if (heads == (name == term.terms.front())) continue;
        terms += (terms.empty() ? "" : ", ") + std::string(name);
        if (!heads) break;
      }
    }
    if (!terms.empty()) fmt::print("  find by: {}\n", terms);
    for (const Pattern& p : all) {
      if (p.family != family) continue;
      fmt::print("  {:<16} {:<44} {}\n", p.id, p.name, p.remark);
    }
    fmt::print("\n");
  }
  fmt::print(
      "`sheaf patterns NAME` says more about one. NAME may also be a sound "
      "(`/ay/`),\nletters with a word (`ow as in cow`), or anything listed "
      "after `find by`.\n");
}

void explain(const Phonics& phonics, PatternId id) {
  constexpr std::size_t kWords = 12, kMisses = 6;
  const Pattern& p = phonics.patterns()[id];
  fmt::print("{}: {}\n{}\n", p.id, p.name, p.remark);
  if (const PatternText* text = find_pattern_text(p.id)) {
    fmt::print("the rule: {}\n", text->teacher);
    fmt::print("set it beside: {}\n", text->compare);
    fmt::print("where the rule comes from: {}\n", text->source);
  }
  fmt::print("words that have it:\n ");
  for (const std::string& word : phonics.words_with(id, kWords)) {
    fmt::print(" {}", word);
  }
  fmt::print("\n");
  const auto misses = phonics.near_misses(id, kMisses);
  if (!misses.empty())
    fmt::print("words that look as if they had it, but do not:\n");
  for (const NearMiss& miss : misses) {
    fmt::print("  {}: {}\n", miss.word, miss.why_not);
  }
}

}  // namespace

int run_patterns(const CommandLine& line) {
  Workspace workspace(disk(), shipped_folder());
  const Phonics& phonics = workspace.phonics();
  if (line.arguments.empty()) {
    print_catalogue(phonics);
    return kDone;
  }
  const auto patterns = pattern_arguments(line.arguments.front(), phonics);
  if (!patterns) return kWrongCommandLine;
  for (const PatternId id : *patterns) {
    if (id != patterns->front()) fmt::print("\n");
    explain(phonics, id);
  }
  return kDone;
}

}  // namespace sheaf
