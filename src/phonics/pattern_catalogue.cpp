#include "phonics/pattern_catalogue.h"

#include <algorithm>
#include <cassert>

#include <fmt/format.h>

#include "base/error.h"
#include "phonics/inventory.h"
#include "phonics/own_pattern.h"
#include "phonics/pattern_rule.h"
#include "phonics/pattern_terms.h"
#include "phonics/table_text.h"

namespace sheaf {
namespace {

std::vector<TaughtUnit> read_taught(std::string_view text, std::string& fault) {
  std::vector<TaughtUnit> taught;
  for (const std::string_view item : split_at(text, ' ')) {
    if (item.empty() || item == "-") continue;
    const std::size_t equals = item.find('=');
    TaughtUnit unit;
    unit.grapheme = item.substr(0, equals);
    std::string sounds(
        equals == std::string_view::npos ? "" : item.substr(equals + 1));
    std::ranges::replace(sounds, '+', ' ');
    if (!read_phonemes(sounds, unit.phonemes) || unit.phonemes.empty()) {
      fault = fmt::format("`{}` does not say what is taught", item);
      return {};
    }
    taught.push_back(std::move(unit));
  }
  return taught;
}

// m, n, ng and l give a short vowel before them another colour.
bool is_coloured(const Reading& reading, std::size_t unit) {
  if (unit + 1 >= reading.units.size()) return false;
  const Phoneme next = reading.units[unit + 1].listed[0];
  return next == Phoneme::m || next == Phoneme::n || next == Phoneme::ng ||
         next == Phoneme::l;
}

// The graphemes of a rule that the pattern is not taught with, for those of its
// sounds that are taught; for all of them where the rule marks letters beside
// what is taught (t and s before ure).
void add_let_in(const PatternRule& rule, Pattern& pattern) {
  using Key = RuleCondition::Key;
  const auto asked = [&](Key key) {
    return std::ranges::find_if(rule.unit, [&](const RuleCondition& c) {
      return c.key == key && !c.negative;
    });
  };
  const auto graphemes = asked(Key::grapheme);
  const auto sounds = asked(Key::sound);
  if (graphemes == rule.unit.end() || sounds == rule.unit.end()) return;
  const auto& taught = pattern.teaches;
  if (taught.empty()) return;
  const auto is_taught = [&](const std::vector<Phoneme>& sound) {
    return std::ranges::find(taught, sound, &TaughtUnit::phonemes) !=
           taught.end();
  };
  const bool beside = std::ranges::none_of(sounds->sounds, is_taught);
  for (const std::string& grapheme : graphemes->values) {
    if (std::ranges::find(taught, grapheme, &TaughtUnit::grapheme) !=
        taught.end()) {
      continue;
    }
    for (const std::vector<Phoneme>& sound : sounds->sounds) {
      if (beside || is_taught(sound)) {
        pattern.lets_in.push_back({grapheme, sound});
      }
    }
  }
}

// What a narrow column holds in one line.
constexpr std::size_t kLongestTitle = 12;

}  // namespace

std::string column_title(const Pattern& pattern) {
  if (pattern.name.size() <= kLongestTitle) return std::string(pattern.name);
  std::string title(pattern.id);
  std::ranges::replace(title, '_', ' ');
  return title;
}

PatternCatalogue::~PatternCatalogue() = default;
PatternCatalogue::PatternCatalogue(PatternCatalogue&&) noexcept = default;

PatternCatalogue::PatternCatalogue(std::string_view text) {
  std::string fault;
  for (const TableRow& row : table_rows(text)) {
    if (row.cells[0] == "id") continue;
    Pattern pattern;
    pattern.id = row.cell(0);
    pattern.name = row.cell(1);
    pattern.remark = row.cell(5);
    pattern.family = row.cell(6);
    pattern.example = row.cell(7);
    pattern.teaches = read_taught(row.cell(2), fault);
    pattern.short_vowel = pattern.id.starts_with("short_");
    std::vector<PatternRule> rules;
    for (const std::string_view part : alternatives(row.cell(3))) {
      PatternRule rule;
      rule.unit = read_conditions(part, fault);
      rule.word = read_conditions(row.cell(4), fault);
      rule.graphemes = grapheme_bits(rule);
      rule.of_ending = asks_for_ending(rule);
      rules.push_back(std::move(rule));
    }
    for (const PatternRule& rule : rules) add_let_in(rule, pattern);
    pattern.of_units = std::ranges::all_of(rules, [](const PatternRule& r) {
      return std::ranges::any_of(r.unit, [](const RuleCondition& c) {
        return c.key == RuleCondition::Key::grapheme && !c.negative;
      });
    });
    if (!fault.empty()) {
      throw MachineError(
          fmt::format("the pattern table, line {}: {}", row.line, fault));
    }
    add(std::move(pattern), std::move(rules));
  }
}

void PatternCatalogue::add(Pattern pattern, std::vector<PatternRule> rules) {
  const auto id = static_cast<PatternId>(patterns_.size());
  by_id_.emplace(plain_name(pattern.id), id);
  by_name_.emplace(plain_name(pattern.name), id);
  patterns_.push_back(std::move(pattern));
  rules_.push_back(std::move(rules));
}

std::optional<PatternId> PatternCatalogue::find_exact(
    std::string_view written) const {
  const std::string plain = plain_name(written);
  for (const auto* names : {&by_id_, &by_name_}) {
    const auto found = names->find(plain);
    if (found != names->end()) return found->second;
  }
  return std::nullopt;
}

void PatternCatalogue::add(const OwnPattern& own) {
  Pattern pattern;
  pattern.id = own_texts_.emplace_back(own.written);
  pattern.name = own_texts_.emplace_back(own.name);
  pattern.remark = "a pattern of the lesson's own";
  pattern.teaches = own.teaches;
  pattern.of_units = true;
  std::vector<PatternRule> rules;
  std::string fault;
  for (const std::string_view part : alternatives(own.rules)) {
    rules.emplace_back().unit = read_conditions(part, fault);
  }
  assert(fault.empty());
  add(std::move(pattern), std::move(rules));
}

const Pattern* PatternCatalogue::by_id(std::string_view id) const {
  const auto found = std::ranges::find(patterns_, id, &Pattern::id);
  return found == patterns_.end() ? nullptr : &*found;
}

std::span<const PatternRule> PatternCatalogue::rules(PatternId id) const {
  return rules_[id];
}

std::vector<PatternPlace> PatternCatalogue::places_in(
    const Reading& reading, const WordFacts& facts) const {
  std::uint64_t graphemes = 0;
  for (const Unit& unit : reading.units) {
    graphemes |= grapheme_bit(unit.grapheme);
  }
  std::vector<PatternPlace> places;
  for (std::size_t id = 0; id < rules_.size(); ++id) {
    PatternPlace place{static_cast<PatternId>(id), {}, false};
    for (const PatternRule& rule : rules_[id]) {
      if (rule.graphemes != 0 && (rule.graphemes & graphemes) == 0) continue;
      for (const std::uint8_t unit : rule_places(rule, reading, facts)) {
        place.units.push_back(unit);
      }
    }
    if (place.units.empty()) continue;
    std::ranges::sort(place.units);
    const auto rest = std::ranges::unique(place.units);
    place.units.erase(rest.begin(), rest.end());
    place.later = patterns_[id].short_vowel &&
                  std::ranges::all_of(place.units, [&](std::uint8_t unit) {
                    return is_coloured(reading, unit);
                  });
    places.push_back(std::move(place));
  }
  return places;
}

}  // namespace sheaf
