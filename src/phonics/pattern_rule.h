#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/phoneme.h"
#include "phonics/word_facts.h"

namespace sheaf {

/// One condition of a pattern's rule: `key=value|value` or `key!=value`.
struct RuleCondition {
  enum class Key {
    // Of a unit.
    grapheme,  ///< g: the grapheme
    sound,     ///< p: its phonemes, joined by +
    stressed,  ///< in a stressed syllable: yes, no
    next,      ///< grapheme of the next unit, - for none
    previous,  ///< grapheme of the unit before, - for none
    then,      ///< letters that follow the unit at once; $ for the base's end,
               ///< behind letters for the word's
    place,     ///< first, last (of the word or its base), final (of the word)
    after,     ///< kind of the unit before: short, vowel, consonant, start
    before,    ///< kind of the next unit: vowel, consonant, end
    open,      ///< ends an open syllable: yes, no
    tail,      ///< letters from the unit to the end of the word or a base
    part,      ///< of a word with an ending: base, ending
    meets,     ///< is the last vowel before an ending put on so: dropped, ...
    // Of the word.
    syllables,  ///< 1, 2+
    ending,     ///< s, es, ed, ...; none
    joint,      ///< plain, doubled, dropped, yi
    onset,      ///< letters of the first consonants, exactly
    coda,       ///< letters of the last consonants, exactly
    shape,      ///< CVC, ...
    compound,   ///< yes, no
    prefix,     ///< un, re, dis, ...; none
    mark,       ///< apostrophe, hyphen; none
  };
  Key key = Key::grapheme;
  bool negative = false;
  std::vector<std::string> values;
  std::vector<std::vector<Phoneme>> sounds;  ///< of `sound`
};

/// When a word has a pattern: at each unit that meets all of `unit`, if the
/// word meets all of `word`. Without unit conditions the word as a whole has
/// it.
struct PatternRule {
  std::vector<RuleCondition> unit;
  std::vector<RuleCondition> word;
  /// It asks for an ending, and all it asks of one must be true of the same:
  /// teachers has -er, though it ends in -s.
  bool of_ending = false;
  /// `grapheme_bit` of each grapheme that a unit may have; 0 where any will do.
  /// Most rules are told by it to have no place in a word.
  std::uint64_t graphemes = 0;
};

/// One bit for a grapheme; different ones may share it.
std::uint64_t grapheme_bit(std::string_view grapheme);
/// The bits that a rule's units ask for, for `PatternRule::graphemes`.
std::uint64_t grapheme_bits(const PatternRule& rule);

/// Parts sets of conditions at the word "or".
std::vector<std::string_view> alternatives(std::string_view text);
/// Reads conditions parted by spaces. `fault` gets what is wrong.
std::vector<RuleCondition> read_conditions(std::string_view text,
                                           std::string& fault);

/// Whether the rule asks for an ending, for `PatternRule::of_ending`.
bool asks_for_ending(const PatternRule& rule);

/// `ending` is the one that the conditions are about; without it any ending of
/// the word will do.
bool word_meets(const RuleCondition& condition, const Reading& reading,
                const WordFacts& facts,
                const WordFacts::PlacedEnding* ending = nullptr);
bool unit_meets(const RuleCondition& condition, const Reading& reading,
                const WordFacts& facts, std::size_t unit,
                const WordFacts::PlacedEnding* ending = nullptr);

/// The units that show the pattern; all of them for a pattern of the whole
/// word; none where the word does not have it.
std::vector<std::uint8_t> rule_places(const PatternRule& rule,
                                      const Reading& reading,
                                      const WordFacts& facts);

}  // namespace sheaf
