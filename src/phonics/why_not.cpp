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

std::string say(std::span<const Phoneme> phonemes) {
  return "/" + sound_name(phonemes, Conventions{}) + "/";
}

const RuleCondition* condition(const PatternRule& rule, Key key) {
  for (const RuleCondition& c : rule.unit) {
    if (c.key == key && !c.negative) return &c;
  }
  return nullptr;
}

std::string place_text(const RuleCondition& failed, const Unit& unit) {
  switch (failed.key) {
    case Key::sound:
      return fmt::format("its {} says {}", unit.grapheme, say(unit.listed));
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
    case Key::syllables:
      return "it has another number of beats";
    default:
      return fmt::format("its {} stands among other letters", unit.grapheme);
  }
}

// A unit with a grapheme of the rule, and the first condition it fails.
std::optional<std::string> failed_unit(const PatternRule& rule,
                                       const Reading& reading,
                                       const WordFacts& facts) {
  const RuleCondition* grapheme = condition(rule, Key::grapheme);
  if (grapheme == nullptr) return std::nullopt;
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    if (!unit_meets(*grapheme, reading, facts, i)) continue;
    for (const RuleCondition& c : rule.unit) {
      if (!unit_meets(c, reading, facts, i)) {
        return place_text(c, reading.units[i]);
      }
    }
    for (const RuleCondition& c : rule.word) {
      if (!word_meets(c, reading, facts)) {
        return place_text(c, reading.units[i]);
      }
    }
  }
  return std::nullopt;
}

// The letters are there, but they belong to other graphemes.
std::optional<std::string> parted_letters(const PatternRule& rule,
                                          const Reading& reading,
                                          const WordFacts& facts) {
  const RuleCondition* grapheme = condition(rule, Key::grapheme);
  if (grapheme == nullptr) return std::nullopt;
  for (const std::string& letters : grapheme->values) {
    if (letters.size() > 1 && letters.find('_') == std::string::npos &&
        facts.letters.find(letters) != std::string::npos) {
      return fmt::format("its letters {} belong to different graphemes ({})",
                         letters, graphemes_text(reading));
    }
  }
  return std::nullopt;
}

// The sound is there, spelled otherwise.
std::optional<std::string> other_spelling(const PatternRule& rule,
                                          const Reading& reading) {
  const RuleCondition* sound = condition(rule, Key::sound);
  if (sound == nullptr) return std::nullopt;
  for (const Unit& unit : reading.units) {
    if (std::ranges::find(sound->sounds, unit.listed) != sound->sounds.end()) {
      return fmt::format("it spells {} with {}", say(unit.listed),
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
      if (!facts.ending) return "it is not a word with that ending";
      return fmt::format("it is `{}` with the ending -{}", facts.ending.base,
                         ending_text(facts.ending.ending));
    }
    if (c.key == Key::joint) {
      return fmt::format("its base `{}` changes in another way",
                         facts.ending.base);
    }
    if (c.key == Key::compound) return "it is not made of two words";
    if (c.key == Key::onset) {
      return facts.onset.empty()
                 ? "it begins with a vowel"
                 : fmt::format("it begins with {}", reading.units[0].grapheme);
    }
  }
  return {};
}

// "it has short o (b o t)"
std::string what_it_has(const Reading& reading) {
  for (const Unit& unit : reading.units) {
    if (!has_vowel(unit)) continue;
    if (is_plain_short_vowel(unit)) {
      return fmt::format("it has short {} ({})", unit.grapheme,
                         graphemes_text(reading));
    }
    return fmt::format("it has {} as {} ({})", unit.grapheme, say(unit.listed),
                       graphemes_text(reading));
  }
  return fmt::format("it is {}", graphemes_text(reading));
}

}  // namespace

std::string explain_why_not(const Reading& reading, const WordFacts& facts,
                            const PatternCatalogue& catalogue,
                            PatternId pattern) {
  const auto rules = catalogue.rules(pattern);
  for (const PatternRule& rule : rules) {
    if (auto text = failed_unit(rule, reading, facts)) return *text;
  }
  for (const PatternRule& rule : rules) {
    if (auto text = parted_letters(rule, reading, facts)) return *text;
  }
  for (const PatternRule& rule : rules) {
    if (auto text = other_spelling(rule, reading)) return *text;
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
  return what_it_has(reading);
}

}  // namespace sheaf
