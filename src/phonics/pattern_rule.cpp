#include "phonics/pattern_rule.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "phonics/inventory.h"
#include "phonics/table_text.h"
#include "phonics/unit_rules.h"

namespace sheaf {
namespace {

using Key = RuleCondition::Key;

struct KeyName {
  std::string_view name;
  Key key;
};
constexpr std::array kKeys = {
    KeyName{"g", Key::grapheme},          KeyName{"p", Key::sound},
    KeyName{"stressed", Key::stressed},   KeyName{"next", Key::next},
    KeyName{"prev", Key::previous},       KeyName{"then", Key::then},
    KeyName{"place", Key::place},         KeyName{"after", Key::after},
    KeyName{"before", Key::before},       KeyName{"open", Key::open},
    KeyName{"tail", Key::tail},           KeyName{"part", Key::part},
    KeyName{"syllables", Key::syllables}, KeyName{"ending", Key::ending},
    KeyName{"joint", Key::joint},         KeyName{"onset", Key::onset},
    KeyName{"coda", Key::coda},           KeyName{"shape", Key::shape},
    KeyName{"compound", Key::compound},   KeyName{"prefix", Key::prefix},
    KeyName{"mark", Key::mark},           KeyName{"meets", Key::meets},
};

bool has(const std::vector<std::string>& values, std::string_view value) {
  return std::ranges::find(values, value) != values.end();
}

bool is_short(const Unit& unit) {
  return unit.listed.size() == 1 && is_short_vowel(unit.listed[0]);
}

std::string_view joint_name(Joint joint) {
  switch (joint) {
    case Joint::plain:
      return "plain";
    case Joint::doubled:
      return "doubled";
    case Joint::dropped_e:
      return "dropped";
    case Joint::y_to_i:
      return "yi";
    case Joint::f_to_v:
      return "fv";
    case Joint::c_to_ck:
      return "ck";
    case Joint::ie_to_y:
      return "iey";
  }
  return {};
}

// ll, ck, tch, x: letters that close the syllable before them.
bool closes_syllable(std::string_view grapheme) {
  const std::size_t n = grapheme.size();
  return grapheme == "x" || grapheme == "ck" || grapheme == "tch" ||
         grapheme.starts_with("dg") || (n > 1 && grapheme[0] == grapheme[1]);
}

// The vowel ends its syllable: a vowel, the end, or one consonant before a
// vowel follows; r or l may stand between that consonant and the vowel.
bool is_open(const Reading& reading, std::size_t i) {
  const std::vector<Unit>& units = reading.units;
  if (i + 1 >= units.size() || has_vowel(units[i + 1])) return true;
  const Unit& consonant = units[i + 1];
  if (consonant.listed.size() != 1 || i + 2 >= units.size() ||
      closes_syllable(consonant.grapheme)) {
    return false;
  }
  if (has_vowel(units[i + 2])) return true;
  const std::string_view third = units[i + 2].grapheme;
  return (third == "r" || third == "l") && i + 3 < units.size() &&
         has_vowel(units[i + 3]) &&
         std::string_view("bcdfgkpt").find(consonant.grapheme[0]) !=
             std::string_view::npos;
}

// The unit behind a base, or the end of the word: teachers has two bases.
bool ends_base(const WordFacts& facts, std::size_t unit) {
  return unit == facts.at.size() ||
         std::ranges::any_of(facts.endings, [&](const auto& ending) {
           return ending.begin == unit;
         });
}

bool then_meets(const RuleCondition& c, const WordFacts& facts, std::size_t i) {
  const std::size_t end = facts.at[i].end;
  const std::string_view rest = std::string_view(facts.letters).substr(end);
  return std::ranges::any_of(c.values, [&](const std::string& value) {
    if (value == "$") return ends_base(facts, i + 1);
    if (value.ends_with('$')) {
      return rest == std::string_view(value).substr(0, value.size() - 1);
    }
    return rest.starts_with(value);
  });
}

bool place_meets(const RuleCondition& c, const WordFacts& facts,
                 std::size_t i) {
  return std::ranges::any_of(c.values, [&](const std::string& value) {
    if (value == "first") return i == 0;
    return value == "last" ? ends_base(facts, i + 1) : i + 1 == facts.at.size();
  });
}

bool after_meets(const RuleCondition& c, const Reading& reading,
                 std::size_t i) {
  if (i == 0) return has(c.values, "start");
  const Unit& before = reading.units[i - 1];
  return std::ranges::any_of(c.values, [&](const std::string& value) {
    if (value == "short") return is_short(before);
    if (value == "vowel") return has_vowel(before);
    return value == "consonant" && !has_vowel(before);
  });
}

bool before_meets(const RuleCondition& c, const Reading& reading,
                  std::size_t i) {
  if (i + 1 >= reading.units.size()) return has(c.values, "end");
  return has(c.values,
             is_vowel(reading.units[i + 1].listed[0]) ? "vowel" : "consonant");
}

bool tail_meets(const RuleCondition& c, const WordFacts& facts, std::size_t i) {
  const std::string_view rest =
      std::string_view(facts.letters).substr(facts.at[i].begin);
  const auto meets = [&](std::size_t unit) {
    if (unit <= i) return false;
    if (unit == facts.at.size()) return has(c.values, rest);
    const std::size_t end = facts.at[unit].begin - facts.at[i].begin;
    return has(c.values, rest.substr(0, end));
  };
  return meets(facts.at.size()) ||
         std::ranges::any_of(facts.endings, [&](const auto& ending) {
           return meets(ending.begin);
         });
}

bool begins_with_vowel_letter(const Unit& unit) {
  return is_vowel_letter(unit.grapheme[0]) || unit.grapheme[0] == 'y';
}

bool ends_in_consonant_le(std::string_view base) {
  return base.size() > 3 && base.ends_with("le") &&
         !is_vowel_letter(base[base.size() - 3]);
}

// The vowel of making is open only because its e went. The one of united is
// open anyway, since another vowel meets the ending; so is that of cradling,
// whose e was that of -le.
bool meets_joint(const RuleCondition& c, const Reading& reading,
                 const WordFacts& facts, std::size_t i) {
  return std::ranges::any_of(facts.endings, [&](const auto& ending) {
    const EndingAnalysis& analysis = ending.analysis;
    if (ending.begin <= i || !has(c.values, joint_name(analysis.joint)) ||
        ends_in_consonant_le(analysis.base)) {
      return false;
    }
    std::size_t last = ending.begin - 1;
    // The r of firing has a vowel's sound, but no vowel letter.
    while (last > i && !(has_vowel(reading.units[last]) &&
                         begins_with_vowel_letter(reading.units[last]))) {
      --last;
    }
    return last == i;
  });
}

std::string with_spaces(std::string_view sounds) {
  std::string text(sounds);
  std::ranges::replace(text, '+', ' ');
  return text;
}

}  // namespace

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

std::vector<RuleCondition> read_conditions(std::string_view text,
                                           std::string& fault) {
  std::vector<RuleCondition> conditions;
  for (const std::string_view item : split_at(text, ' ')) {
    if (item.empty() || item == "-") continue;
    const std::size_t equals = item.find('=');
    if (equals == std::string_view::npos || equals == 0) {
      fault = fmt::format("`{}` is not a condition", item);
      return {};
    }
    RuleCondition condition;
    condition.negative = item[equals - 1] == '!';
    const std::string_view name =
        item.substr(0, equals - (condition.negative ? 1 : 0));
    const auto key = std::ranges::find(kKeys, name, &KeyName::name);
    if (key == kKeys.end()) {
      fault = fmt::format("there is no condition `{}`", name);
      return {};
    }
    condition.key = key->key;
    for (const std::string_view value :
         split_at(item.substr(equals + 1), '|')) {
      condition.values.emplace_back(value);
      if (condition.key != Key::sound) continue;
      if (!read_phonemes(with_spaces(value), condition.sounds.emplace_back())) {
        fault = fmt::format("unknown sound in `{}`", item);
        return {};
      }
    }
    conditions.push_back(std::move(condition));
  }
  return conditions;
}

bool asks_for_ending(const PatternRule& rule) {
  return std::ranges::any_of(rule.word, [](const RuleCondition& c) {
    return !c.negative && (c.key == Key::joint ||
                           (c.key == Key::ending && !has(c.values, "none")));
  });
}

bool word_meets(const RuleCondition& c, const Reading& reading,
                const WordFacts& facts, const WordFacts::PlacedEnding* ending) {
  bool met = false;
  const auto any_ending = [&](const auto& fits) {
    return ending != nullptr ? fits(*ending)
                             : std::ranges::any_of(facts.endings, fits);
  };
  switch (c.key) {
    case Key::syllables:
      met = has(c.values, "2+")
                ? reading.syllables() > 1
                : has(c.values, std::to_string(reading.syllables()));
      break;
    case Key::ending:
      met = (facts.endings.empty() && has(c.values, "none")) ||
            any_ending([&](const auto& e) {
              return has(c.values, ending_name(e.analysis.ending));
            });
      break;
    case Key::joint:
      met = any_ending([&](const auto& e) {
        return has(c.values, joint_name(e.analysis.joint));
      });
      break;
    case Key::onset:
      met = has(c.values, facts.onset);
      break;
    case Key::coda:
      met = has(c.values, facts.coda);
      break;
    case Key::shape:
      met = has(c.values, facts.shape);
      break;
    case Key::compound:
      met = has(c.values, facts.compound_at > 0 ? "yes" : "no");
      break;
    case Key::prefix:
      met = has(c.values, facts.prefix.empty() ? "none" : facts.prefix);
      break;
    case Key::mark:
      met = has(c.values, facts.mark.empty() ? "none" : facts.mark);
      break;
    default:
      break;
  }
  return met != c.negative;
}

bool unit_meets(const RuleCondition& c, const Reading& reading,
                const WordFacts& facts, std::size_t i,
                const WordFacts::PlacedEnding* ending) {
  const Unit& unit = reading.units[i];
  bool met = false;
  switch (c.key) {
    case Key::grapheme:
      met = has(c.values, unit.grapheme);
      break;
    case Key::sound:
      met = std::ranges::find(c.sounds, unit.listed) != c.sounds.end();
      break;
    case Key::stressed:
      met = has(c.values, unit.stressed ? "yes" : "no");
      break;
    case Key::next:
      met = has(c.values, i + 1 < reading.units.size()
                              ? reading.units[i + 1].grapheme
                              : "-");
      break;
    case Key::previous:
      met = has(c.values, i > 0 ? reading.units[i - 1].grapheme : "-");
      break;
    case Key::then:
      met = then_meets(c, facts, i);
      break;
    case Key::place:
      met = place_meets(c, facts, i);
      break;
    case Key::after:
      met = after_meets(c, reading, i);
      break;
    case Key::before:
      met = before_meets(c, reading, i);
      break;
    case Key::open:
      met = has(c.values, is_open(reading, i) ? "yes" : "no");
      break;
    case Key::tail:
      met = tail_meets(c, facts, i);
      break;
    case Key::part:
      if (ending != nullptr) {
        const bool inside = ending->begin <= i && i < ending->end;
        met = has(c.values, inside ? "ending" : "base");
      } else {
        met = has(c.values, i < facts.base_units ? "base" : "ending");
      }
      break;
    case Key::meets:
      met = meets_joint(c, reading, facts, i);
      break;
    default:
      return word_meets(c, reading, facts, ending);
  }
  return met != c.negative;
}

std::uint64_t grapheme_bit(std::string_view grapheme) {
  unsigned sum = 0;
  for (const char c : grapheme) sum = sum * 31 + static_cast<unsigned char>(c);
  return std::uint64_t{1} << (sum & 63U);
}

std::uint64_t grapheme_bits(const PatternRule& rule) {
  for (const RuleCondition& c : rule.unit) {
    if (c.key != Key::grapheme || c.negative) continue;
    std::uint64_t bits = 0;
    for (const std::string& value : c.values) bits |= grapheme_bit(value);
    return bits;
  }
  return 0;
}

std::vector<std::uint8_t> rule_places(const PatternRule& rule,
                                      const Reading& reading,
                                      const WordFacts& facts) {
  std::vector<std::uint8_t> places;
  if (rule.unit.empty() && rule.word.empty()) return places;
  const auto add = [&](const WordFacts::PlacedEnding* ending) {
    for (const RuleCondition& condition : rule.word) {
      if (!word_meets(condition, reading, facts, ending)) return;
    }
    for (std::size_t i = 0; i < reading.units.size(); ++i) {
      const bool all = std::ranges::all_of(rule.unit, [&](const auto& c) {
        return unit_meets(c, reading, facts, i, ending);
      });
      if (all) places.push_back(static_cast<std::uint8_t>(i));
    }
  };
  if (!rule.of_ending) {
    add(nullptr);
    return places;
  }
  for (const WordFacts::PlacedEnding& ending : facts.endings) {
    if (!ending.changed) add(&ending);
  }
  return places;
}

}  // namespace sheaf
