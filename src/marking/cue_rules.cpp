#include "marking/cue_rules.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "marking/tables.h"
#include "phonics/letter_map.h"
#include "phonics/lexicon.h"
#include "phonics/table_text.h"
#include "phonics/word_facts.h"

namespace sheaf {
namespace {

using Key = RuleCondition::Key;

// Whether a condition is met, as far as that can be told without looking for
// the word's endings, which takes ten times as long as all the rest.
std::optional<bool> quick_answer(const RuleCondition& c, const Reading& word,
                                 std::size_t index) {
  switch (c.key) {
    case Key::grapheme:
    case Key::sound:
    case Key::stressed:
    case Key::next:
    case Key::previous:
    case Key::after:
    case Key::before:
    case Key::open:
    case Key::syllables:
      return unit_meets(c, word, WordFacts{}, index);
    case Key::place:
      // What ends the word ends its base.
      if (index + 1 == word.units.size() && c.values.size() == 1 &&
          c.values[0] != "first") {
        return !c.negative;
      }
      return std::nullopt;
    default:
      return std::nullopt;
  }
}

bool has_place(const Reading& word, std::span<const PatternId> patterns,
               std::size_t index) {
  return std::ranges::any_of(patterns, [&](PatternId id) {
    const PatternPlace* place = word.find(id);
    return place != nullptr &&
           std::ranges::find(place->units, index) != place->units.end();
  });
}

CueRule rule_of(const TableRow& row) {
  CueRule rule;
  rule.line = row.line;
  rule.patterns = split_at(row.cell(0), ' ');
  if (row.cell(1) == "=") {
    rule.where = CueRule::Where::at_pattern;
  } else if (row.cell(1) == "-") {
    rule.where = CueRule::Where::in_word;
  } else {
    rule.conditions = row.cell(1);
  }
  rule.errors = split_at(row.cell(2), ' ');
  rule.text = row.cell(3);
  rule.source = row.cell(4);
  return rule;
}

bool is_against(const CueRule& rule, Cause cause, std::string_view written) {
  // About a joint only its own rules are said: hopping has no pp in the middle
  // of a word.
  const bool joint = cause == Cause::doubling || cause == Cause::dropped_e ||
                     cause == Cause::y_to_i;
  const std::string_view name = cause_name(cause);
  return std::ranges::any_of(rule.errors, [&](std::string_view error) {
    return error == name || (!joint && !written.empty() && error == written);
  });
}

}  // namespace

std::span<const CueRule> cue_rules() {
  static const std::vector<CueRule> rules = [] {
    std::vector<CueRule> all;
    for (const TableRow& row : table_rows(cue_rules_table())) {
      if (row.cell(0) != "patterns") all.push_back(rule_of(row));  // no head
    }
    return all;
  }();
  return rules;
}

const CueRules::Read& CueRules::read(std::size_t row) const {
  std::unique_ptr<const Read>& known = read_[row];
  if (known == nullptr) {
    auto made = std::make_unique<Read>();
    const CueRule& rule = cue_rules()[row];
    made->conditions = read_conditions(rule.conditions, made->fault);
    for (const std::string_view id : rule.patterns) {
      const Pattern* pattern = phonics_.patterns().by_id(id);
      if (pattern == nullptr) {
        made->fault = fmt::format("there is no pattern `{}`", id);
        continue;
      }
      made->patterns.push_back(phonics_.patterns().id_of(*pattern));
    }
    known = std::move(made);
  }
  return *known;
}

std::string CueRules::fault(std::size_t row) const {
  const std::string& fault = read(row).fault;
  return fault.empty()
             ? fault
             : fmt::format("line {}: {}", cue_rules()[row].line, fault);
}

FoundRule CueRules::find(const Reading& word, std::size_t index, Cause cause,
                         std::string_view written) const {
  if (index >= word.units.size()) return {};
  std::optional<WordFacts> facts;
  const auto meets = [&](std::span<const RuleCondition> conditions) {
    bool all_known = true;
    for (const RuleCondition& c : conditions) {
      const auto answer = quick_answer(c, word, index);
      if (answer && !*answer) return false;
      all_known = all_known && answer;
    }
    if (all_known) return true;
    if (!facts) {
      facts = find_facts(word, map_letters(word.word), phonics_.lexicon());
    }
    return std::ranges::all_of(conditions, [&](const RuleCondition& c) {
      return unit_meets(c, word, *facts, index);
    });
  };
  for (std::size_t row = 0; row < cue_rules().size(); ++row) {
    const CueRule& rule = cue_rules()[row];
    if (!is_against(rule, cause, written)) continue;
    const Read& known = read(row);
    const auto has = [&](PatternId id) { return word.find(id) != nullptr; };
    const auto about = std::ranges::find_if(known.patterns, has);
    const bool has_one = about != known.patterns.end();
    bool holds = false;
    switch (rule.where) {
      case CueRule::Where::at_pattern:
        holds = has_place(word, known.patterns, index);
        break;
      case CueRule::Where::in_word:
        holds = has_one;
        break;
      case CueRule::Where::by_conditions:
        holds = meets(known.conditions);
        break;
    }
    if (!holds) continue;
    if (has_one) return {rule.text, phonics_.patterns()[*about].id};
    return {rule.text, rule.patterns.front()};
  }
  return {};
}

}  // namespace sheaf
