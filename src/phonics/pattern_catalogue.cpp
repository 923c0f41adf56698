#include "phonics/pattern_catalogue.h"

#include <algorithm>
#include <cassert>

#include <fmt/format.h>

#include "base/error.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "phonics/inventory.h"
#include "phonics/own_pattern.h"
#include "phonics/pattern_rule.h"
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

// Parts a text at the word "or".
std::vector<std::string_view> alternatives(std::string_view text) {
  std::vector<std::string_view> result;
  std::size_t begin = 0;
  for (;;) {
    const std::size_t end = text.find(" or ", begin);
    result.push_back(text.substr(begin, end - begin));
    if (end == std::string_view::npos) return result;
    begin = end + 4;
  }
}

// Lower case, with what parts words made alike.
std::string plain_form(std::string_view text) {
  std::string result;
  for (const char c : lower_case(text)) {
    const bool gap = c == ' ' || c == '-' || c == '_';
    if (gap && (result.empty() || result.back() == ' ')) continue;
    result += gap ? ' ' : c;
  }
  while (result.ends_with(' ')) result.pop_back();
  return result;
}

// Whether the plain form of a text is `wanted`, which is one; most are told
// apart by their first letter.
bool has_plain_form(std::string_view text, std::string_view wanted) {
  const char first = text.empty() ? ' ' : text.front();
  const bool small = first >= 'a' && first <= 'z';
  if (small && first != wanted.front()) return false;
  return plain_form(text) == wanted;
}

// Whether `part` stands in `whole` at the beginning of a word of it.
bool holds_part(std::string_view whole, std::string_view part) {
  std::size_t at = whole.find(part);
  while (at != std::string_view::npos) {
    const bool begins = at == 0 || whole[at - 1] == ' ' || whole[at - 1] == '(';
    const std::size_t end = at + part.size();
    const bool ends =
        end == whole.size() ||
        std::string_view(" ,)").find(whole[end]) != std::string_view::npos;
    if (begins && ends) return true;
    at = whole.find(part, at + 1);
  }
  return false;
}

// m, n, ng and l give a short vowel before them another colour.
bool is_coloured(const Reading& reading, std::size_t unit) {
  if (unit + 1 >= reading.units.size()) return false;
  const Phoneme next = reading.units[unit + 1].listed[0];
  return next == Phoneme::m || next == Phoneme::n || next == Phoneme::ng ||
         next == Phoneme::l;
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
    pattern.of_units = std::ranges::all_of(rules, [](const PatternRule& r) {
      return std::ranges::any_of(r.unit, [](const RuleCondition& c) {
        return c.key == RuleCondition::Key::grapheme && !c.negative;
      });
    });
    if (!fault.empty()) {
      throw MachineError(
          fmt::format("the pattern table, line {}: {}", row.line, fault));
    }
    patterns_.push_back(std::move(pattern));
    rules_.push_back(std::move(rules));
  }
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
  patterns_.push_back(std::move(pattern));
  rules_.push_back(std::move(rules));
}

const Pattern* PatternCatalogue::by_id(std::string_view id) const {
  const auto found = std::ranges::find(patterns_, id, &Pattern::id);
  return found == patterns_.end() ? nullptr : &*found;
}

PatternSearch PatternCatalogue::find(std::string_view written) const {
  PatternSearch search;
  const std::string wanted = plain_form(written);
  if (wanted.empty()) return search;
  for (const bool by_name : {false, true}) {
    for (const Pattern& pattern : patterns_) {
      if (has_plain_form(by_name ? pattern.name : pattern.id, wanted)) {
        search.found.push_back(id_of(pattern));
        return search;
      }
    }
  }
  for (const Pattern& pattern : patterns_) {
    if (holds_part(plain_form(pattern.name), wanted) ||
        holds_part(plain_form(pattern.id), wanted)) {
      search.found.push_back(id_of(pattern));
    }
  }
  if (!search.found.empty()) return search;
  std::vector<std::string_view> names;
  for (const Pattern& pattern : patterns_) {
    names.push_back(pattern.id);
    if (pattern.name != pattern.id) names.push_back(pattern.name);
  }
  search.nearest = nearest_names(written, names);
  return search;
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
