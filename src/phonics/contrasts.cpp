#include "phonics/contrasts.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "base/error.h"
#include "phonics/pattern_rule.h"
#include "phonics/table_text.h"
#include "phonics/tables.h"

namespace sheaf {

namespace {

using ConditionSets = std::vector<std::vector<RuleCondition>>;

struct ContrastRule {
  std::string_view pattern, against;
  ConditionSets shows, breaks;
};

std::vector<ContrastRule> read_rules() {
  std::vector<ContrastRule> rules;
  for (const TableRow& row : table_rows(contrasts_table())) {
    if (row.cells[0] == "pattern") continue;
    ContrastRule rule{row.cell(0), row.cell(1), {}, {}};
    std::string fault;
    for (const std::string_view set : alternatives(row.cell(2))) {
      rule.shows.push_back(read_conditions(set, fault));
    }
    for (const std::string_view set : alternatives(row.cell(3))) {
      rule.breaks.push_back(read_conditions(set, fault));
    }
    if (!fault.empty()) {
      throw MachineError(
          fmt::format("the table of contrasts, line {}: {}", row.line, fault));
    }
    rules.push_back(std::move(rule));
  }
  return rules;
}

std::vector<const ContrastRule*> rules_for(const PatternCatalogue& catalogue,
                                           PatternId pattern,
                                           std::span<const PatternId> against) {
  static const std::vector<ContrastRule> rules = read_rules();
  std::vector<const ContrastRule*> found;
  for (const ContrastRule& rule : rules) {
    if (rule.pattern != catalogue[pattern].id) continue;
    const bool is_asked = std::ranges::any_of(against, [&](PatternId other) {
      return catalogue[other].id == rule.against;
    });
    if (is_asked) found.push_back(&rule);
  }
  return found;
}

// Whether the unit meets all of some set of conditions.
bool meets(const ConditionSets& sets, const Reading& reading,
           const WordFacts& facts, std::size_t unit) {
  return std::ranges::any_of(sets, [&](const auto& conditions) {
    return !conditions.empty() &&
           std::ranges::all_of(conditions, [&](const RuleCondition& c) {
             return unit_meets(c, reading, facts, unit);
           });
  });
}

}  // namespace

ContrastFit contrast_fit(const PatternCatalogue& catalogue,
                         const Reading& reading, const WordFacts& facts,
                         PatternId pattern,
                         std::span<const PatternId> against) {
  const PatternPlace* place = reading.find(pattern);
  ContrastFit worst = ContrastFit::shows;
  if (place == nullptr) return worst;
  for (const ContrastRule* rule : rules_for(catalogue, pattern, against)) {
    // The ch that church ends in is what counts.
    const auto any_meets = [&](const ConditionSets& sets) {
      return std::ranges::any_of(place->units, [&](std::uint8_t unit) {
        return meets(sets, reading, facts, unit);
      });
    };
    const ContrastFit fit = any_meets(rule->breaks)  ? ContrastFit::breaks
                            : any_meets(rule->shows) ? ContrastFit::shows
                                                     : ContrastFit::silent;
    worst = std::max(worst, fit);
  }
  return worst;
}

bool has_contrast_rule(const PatternCatalogue& catalogue, PatternId pattern,
                       std::span<const PatternId> against) {
  return !rules_for(catalogue, pattern, against).empty();
}

}  // namespace sheaf
