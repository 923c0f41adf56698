#include "phonics/why_not.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "phonics/explain.h"
#include "phonics/notation.h"
#include "phonics/pattern_rule.h"
#include "phonics/unit_rules.h"

namespace sheaf {
namespace {

using Key = RuleCondition::Key;

std::string say(const Unit& unit, const Conventions& conventions) {
  return "/" + sound_name(unit.phonemes, conventions) + "/";
}

const RuleCondition* condition(const PatternRule& rule, Key key) {
  for (const RuleCondition& c : rule.unit) {
    if (c.key == key && !c.negative) return &c;
  }
  return nullptr;
}

std::string place_text(const RuleCondition& failed, const Unit& unit,
                       const Conventions& conventions) {
  switch (failed.key) {
    case Key::sound:
      return fmt::format("its {} says {}", unit.grapheme,
                         say(unit, conventions));
    case Key::place:
      return fmt::format("its {} is not at the {}", unit.grapheme,
                         failed.values.front() == "first" ? "start" : "end");
    case Key::after:
      return fmt::format("its {} does not stand after a short vowel",
                         unit.grapheme);
    case Key::stressed:
      return fmt::format("its {} is in a weak beat", unit.grapheme);
    case Key::open:
      return fmt::format("its {} is not in an open syllable", unit.grapheme);
    case Key::part:
      return fmt::format("its {} is an ending", unit.grapheme);
    case Key::meets:
      return fmt::format("its {} is open only because an e was dropped",
                         unit.grapheme);
    case Key::syllables:
      return "it has another number of beats";
    default:
      return fmt::format("its {} stands among other letters", unit.grapheme);
  }
}

// Whether a condition is about where a unit stands.
bool is_place(const RuleCondition& c) {
  switch (c.key) {
    case Key::next:
    case Key::previous:
    case Key::then:
    case Key::place:
    case Key::after:
    case Key::before:
    case Key::open:
    case Key::tail:
      return true;
    default:
      return false;
  }
}

// Whether the unit stands where the rule wants one, or, where `loosely`, in a
// syllable as the rule wants it.
bool stands_right(const PatternRule& rule, const Reading& reading,
                  const WordFacts& facts, std::size_t unit, bool loosely) {
  return std::ranges::all_of(rule.unit, [&](const RuleCondition& c) {
    const bool must =
        loosely ? c.key == Key::tail || c.key == Key::open : is_place(c);
    return !must || unit_meets(c, reading, facts, unit);
  });
}

// A unit with a grapheme of the rule, in the right place or anywhere, and the
// first condition it fails.
std::optional<std::string> failed_unit(const PatternRule& rule,
                                       const Reading& reading,
                                       const WordFacts& facts, bool anywhere,
                                       const Conventions& conventions) {
  const RuleCondition* grapheme = condition(rule, Key::grapheme);
  if (grapheme == nullptr) return std::nullopt;
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    if (!unit_meets(*grapheme, reading, facts, i) ||
        (!anywhere && !stands_right(rule, reading, facts, i, false))) {
      continue;
    }
    for (const RuleCondition& c : rule.unit) {
      if (!unit_meets(c, reading, facts, i)) {
        return place_text(c, reading.units[i], conventions);
      }
    }
    for (const RuleCondition& c : rule.word) {
      if (!word_meets(c, reading, facts)) {
        return place_text(c, reading.units[i], conventions);
      }
    }
  }
  return std::nullopt;
}

// Letters of the pattern that belong to other graphemes: sh in mishap, the al
// of deal.
std::string parted_letters(const PatternRule& rule, const Reading& reading,
                           const WordFacts& facts) {
  const RuleCondition* grapheme = condition(rule, Key::grapheme);
  if (grapheme == nullptr) return {};
  if (const RuleCondition* tail = condition(rule, Key::tail)) {
    for (const std::string& letters : tail->values) {
      if (facts.letters.ends_with(letters)) return letters;
    }
    return {};
  }
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    if (unit_meets(*grapheme, reading, facts, i)) return {};
  }
  const RuleCondition* place = condition(rule, Key::place);
  for (const std::string& letters : grapheme->values) {
    if (letters.size() < 2 || letters.find('_') != std::string::npos) continue;
    const bool there =
        place == nullptr ? facts.letters.find(letters) != std::string::npos
        : place->values.front() == "first" ? facts.letters.starts_with(letters)
                                           : facts.letters.ends_with(letters);
    if (there) return letters;
  }
  return {};
}

// The sound is there, spelled otherwise. The o of dog, which the word list
// gives the vowel of saw, is no such spelling of it.
std::optional<std::string> other_spelling(const PatternRule& rule,
                                          const Reading& reading,
                                          const Conventions& conventions) {
  const RuleCondition* sound = condition(rule, Key::sound);
  if (sound == nullptr) return std::nullopt;
  const auto asks_for = [&](const std::vector<Phoneme>& listed) {
    return std::ranges::find(sound->sounds, listed) != sound->sounds.end();
  };
  for (const Unit& unit : reading.units) {
    const bool short_o = unit.phonemes == std::vector{Phoneme::oh};
    if (short_o && !conventions.cot_caught_merged && !asks_for({Phoneme::aa})) {
      continue;
    }
    if (asks_for(unit.listed)) {
      return fmt::format("it spells {} with {}", say(unit, conventions),
                         unit.grapheme);
    }
  }
  return std::nullopt;
}

std::string ending_text_of(const PatternRule& rule, const Reading& reading,
                           const WordFacts& facts) {
  for (const RuleCondition& c : rule.word) {
    if (word_meets(c, reading, facts)) continue;
    if (c.key == Key::ending && !c.negative && c.values.front() != "none") {
      if (facts.endings.empty()) return "it is not a word with that ending";
      const EndingAnalysis& outer = facts.endings.front().analysis;
      return fmt::format("it is `{}` with the ending -{}", outer.base,
                         ending_text(outer.ending));
    }
    if (c.key == Key::joint) {
      if (facts.endings.empty()) return "it is not a word with that ending";
      return fmt::format("its base `{}` changes in another way",
                         facts.endings.front().analysis.base);
    }
    if (c.key == Key::compound) return "it is not made of two words";
    if (c.key == Key::prefix) {
      const auto prefix = std::ranges::find_if(c.values, [&](const auto& v) {
        return facts.letters.starts_with(v);
      });
      if (prefix == c.values.end()) return "it begins with no such prefix";
      return fmt::format("its {} does not stand before a word", *prefix);
    }
    if (c.key == Key::onset) {
      return facts.onset.empty()
                 ? "it begins with a vowel"
                 : fmt::format("it begins with {}", reading.units[0].grapheme);
    }
  }
  return {};
}

// The letters are there by the way the ending was put on: leaves, for ve.
std::string unwanted_joint(const PatternRule& rule, const Reading& reading,
                           const WordFacts& facts) {
  for (const RuleCondition& c : rule.word) {
    if (c.key != Key::joint || !c.negative || word_meets(c, reading, facts)) {
      continue;
    }
    const EndingAnalysis& outer = facts.endings.front().analysis;
    return fmt::format("it is `{}` with the ending -{}", outer.base,
                       ending_text(outer.ending));
  }
  return {};
}

// "it has short o (b o t)"
std::string what_it_has(const Reading& reading,
                        const Conventions& conventions) {
  for (const Unit& unit : reading.units) {
    if (!has_vowel(unit)) continue;
    if (is_plain_short_vowel(unit)) {
      return fmt::format("it has short {} ({})", unit.grapheme,
                         graphemes_text(reading));
    }
    return fmt::format("it has {} as {} ({})", unit.grapheme,
                       say(unit, conventions), graphemes_text(reading));
  }
  return fmt::format("it is {}", graphemes_text(reading));
}

// A vowel letter, one letter and an e at the end or before s or d: have, are.
bool has_split_letters(std::string_view letters, char vowel) {
  if (letters.ends_with('s') || letters.ends_with('d')) {
    letters.remove_suffix(1);
  }
  return letters.size() > 2 && letters.ends_with('e') &&
         letters[letters.size() - 3] == vowel;
}

// Whether the letters begin or end as a condition of the word has it.
bool word_looks_so(const RuleCondition& c, const WordFacts& facts) {
  if (c.negative) return false;
  return std::ranges::any_of(c.values, [&](std::string letters) {
    if (letters == "none") return false;
    switch (c.key) {
      case Key::onset:
        std::erase(letters, '+');
        return facts.letters.starts_with(letters);
      case Key::coda:
        std::erase(letters, '+');
        return facts.letters.ends_with(letters);
      case Key::ending:
        return facts.letters.size() > letters.size() &&
               facts.letters.ends_with(letters);
      case Key::prefix:
        return facts.letters.size() > letters.size() &&
               facts.letters.starts_with(letters);
      default:
        return false;
    }
  });
}

Likeness likeness_to(const PatternRule& rule, const Reading& reading,
                     const WordFacts& facts) {
  const RuleCondition* grapheme = condition(rule, Key::grapheme);
  if (grapheme == nullptr) {
    const bool like = std::ranges::any_of(
        rule.word, [&](const auto& c) { return word_looks_so(c, facts); });
    return like ? Likeness::close : Likeness::none;
  }
  Likeness best = Likeness::none;
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    if (!unit_meets(*grapheme, reading, facts, i)) continue;
    if (stands_right(rule, reading, facts, i, false)) return Likeness::close;
    if (stands_right(rule, reading, facts, i, true)) best = Likeness::loose;
  }
  if (best == Likeness::none && !parted_letters(rule, reading, facts).empty()) {
    return Likeness::close;
  }
  const bool split =
      best == Likeness::none &&
      std::ranges::any_of(grapheme->values, [&](const std::string& g) {
        return g.size() == 3 && g[1] == '_' &&
               has_split_letters(facts.letters, g[0]);
      });
  return split ? Likeness::close : best;
}

}  // namespace

Likeness likeness_to(const Reading& reading, const WordFacts& facts,
                     const PatternCatalogue& catalogue, PatternId pattern) {
  Likeness best = Likeness::none;
  for (const PatternRule& rule : catalogue.rules(pattern)) {
    best = std::max(best, likeness_to(rule, reading, facts));
  }
  return best;
}

std::string explain_why_not(const Reading& reading, const WordFacts& facts,
                            const PatternCatalogue& catalogue,
                            PatternId pattern, const Conventions& conventions) {
  const auto rules = catalogue.rules(pattern);
  for (const PatternRule& rule : rules) {
    std::string text = unwanted_joint(rule, reading, facts);
    if (!text.empty()) return text;
  }
  for (const PatternRule& rule : rules) {
    if (auto text = failed_unit(rule, reading, facts, false, conventions))
      return *text;
  }
  for (const PatternRule& rule : rules) {
    const std::string letters = parted_letters(rule, reading, facts);
    if (letters.empty()) continue;
    return fmt::format("its letters {} belong to different graphemes ({})",
                       letters, graphemes_text(reading));
  }
  for (const PatternRule& rule : rules) {
    if (auto text = failed_unit(rule, reading, facts, true, conventions))
      return *text;
  }
  for (const PatternRule& rule : rules) {
    if (auto text = other_spelling(rule, reading, conventions)) return *text;
  }
  for (const PatternRule& rule : rules) {
    std::string text = ending_text_of(rule, reading, facts);
    if (!text.empty()) return text;
  }
  for (const PatternRule& rule : rules) {
    const RuleCondition* grapheme = condition(rule, Key::grapheme);
    if (grapheme && !is_vowel_letter(grapheme->values.front()[0])) {
      return fmt::format("it has no {} ({})", grapheme->values.front(),
                         graphemes_text(reading));
    }
  }
  return what_it_has(reading, conventions);
}

}  // namespace sheaf
