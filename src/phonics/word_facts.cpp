#include "phonics/word_facts.h"

#include <algorithm>
#include <array>
#include <optional>
#include <span>

#include "phonics/alike.h"
#include "phonics/compound.h"
#include "phonics/word_endings.h"

namespace sheaf {
namespace {

using P = Phoneme;

// What stands behind a prefix may be rarer where it is longer.
constexpr int kLargestLongBaseList = 60;

// The letters of a spelling without its signs.
std::size_t letter_count(std::string_view spelling) {
  return static_cast<std::size_t>(std::ranges::count_if(
      spelling, [](char c) { return c >= 'a' && c <= 'z'; }));
}

CutWord cut_units(const Reading& reading, const WordFacts& facts) {
  CutWord word;
  word.letters = facts.letters;
  word.sounds = listed_sounds(reading.units);
  std::size_t sounds = 0;
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    sounds += reading.units[i].listed.size();
    std::size_t split_end = 0;
    if (reading.units[i].is_split()) {
      split_end = facts.letters.find('e', facts.at[i].begin + 1U) + 1;
    }
    word.pieces.push_back({facts.at[i].begin, sounds, split_end});
  }
  return word;
}

// girls', and 's behind any name; it's and its like stand in our own list.
std::optional<std::vector<TakenEnding>> take_possessive(
    const Reading& reading, std::string_view spelling, const Lexicon& lexicon) {
  const bool plural = spelling.ends_with("s'");
  if (!plural && !spelling.ends_with("'s")) return std::nullopt;
  std::vector<TakenEnding> endings;
  const auto listed = lexicon.readings(spelling);
  if (!plural && !listed.empty() &&
      listed.front().origin != Reading::Origin::derived) {
    return endings;
  }
  const std::string_view base =
      spelling.substr(0, spelling.size() - (plural ? 1 : 2));
  endings.push_back(
      {{Ending::possessive, Joint::plain, std::string(base)}, std::nullopt});
  auto units = std::span(reading.units);
  if (!plural && !units.empty()) units = units.first(units.size() - 1);
  const std::vector<P> sounds = listed_sounds(units);
  for (WordRecord& record : lexicon.readings(base)) {
    if (!std::ranges::equal(phonemes_of(record.segments, lexicon.inventory()),
                            sounds, same_sound)) {
      continue;
    }
    endings.front().base = std::move(record);
    break;
  }
  for (TakenEnding& inner : peel_endings(base, sounds, lexicon)) {
    endings.push_back(std::move(inner));
  }
  return endings;
}

// Where in the word each ending stands.
void place_endings(std::span<const TakenEnding> taken, WordFacts& facts) {
  std::size_t last = facts.at.size();
  std::size_t letters = facts.letters.size();
  bool changed = false;
  for (const TakenEnding& ending : taken) {
    const EndingAnalysis& analysis = ending.analysis;
    const std::size_t own = letter_count(ending_text(analysis.ending));
    std::size_t begin = last;
    while (begin > 0 && facts.at[begin - 1].begin + own >= letters) --begin;
    facts.endings.push_back({analysis, begin, last, changed});
    letters = letter_count(analysis.base);
    last = begin;
    changed = analysis.joint == Joint::y_to_i;
  }
  facts.base_units = last;
}

// The letter that begins the second word of a compound, else 0. Endings may
// stand behind a compound, which sounds as it does by itself: the s of
// lighthouse is not the z of lighthouses.
std::size_t find_second_word(CutWord word, std::span<const TakenEnding> taken,
                             const WordFacts& facts, const Lexicon& lexicon) {
  if (taken.empty()) return second_word(word, lexicon);
  for (const TakenEnding& ending : taken) {
    const std::string_view base = ending.analysis.base;
    if (letter_count(base) != base.size()) break;
    if (ending.base) {
      const std::size_t letter = second_word(
          cut_record(*ending.base, base, lexicon.inventory()), lexicon);
      if (letter > 0) return letter;
    } else {
      word.letters = base;
      word.pieces.resize(facts.endings.front().begin);
      word.sounds.resize(word.pieces.empty() ? 0
                                             : word.pieces.back().sounds_end);
      return second_word(word, lexicon);
    }
  }
  return 0;
}

std::size_t unit_at(const WordFacts& facts, std::size_t letter) {
  if (letter == 0) return 0;
  // In cupboard one grapheme has letters of both words.
  const auto at = std::ranges::find_if(
      facts.at, [&](WordFacts::Place place) { return place.end > letter; });
  return at == facts.at.end() ? 0
                              : static_cast<std::size_t>(at - facts.at.begin());
}

// A prefix is one where the rest is a word that sounds as it does here:
// unhappy, not uncle; relay, not ready.
std::string_view find_prefix(const Reading& reading, const WordFacts& facts,
                             const Lexicon& lexicon) {
  const bool none = lexicon.is_not_prefixed(facts.letters) ||
                    std::ranges::any_of(facts.endings, [&](const auto& e) {
                      return lexicon.is_not_prefixed(e.analysis.base);
                    });
  if (none) return {};
  for (const std::string_view prefix : known_prefixes()) {
    if (!facts.letters.starts_with(prefix)) continue;
    const std::string_view rest =
        std::string_view(facts.letters).substr(prefix.size());
    if (rest.size() < 2) continue;
    const std::vector<P> whole = listed_sounds(reading.units);
    for (const WordRecord& record : lexicon.readings(rest)) {
      const int largest =
          rest.size() > 4 ? kLargestLongBaseList : kLargestBaseList;
      if (record.name || record.tier == 0 || record.tier > largest) continue;
      const std::vector<P> own =
          phonemes_of(record.segments, lexicon.inventory());
      if (own.size() > 1 && ends_in_word(whole, own)) return prefix;
    }
  }
  return {};
}

// The letters, and where each unit stands in them.
WordFacts place_units(const Reading& reading, const LetterMap& map) {
  WordFacts facts;
  facts.letters = map.letters;
  facts.at.reserve(reading.units.size());
  for (const Unit& unit : reading.units) {
    const auto begin = std::ranges::find(map.begins, unit.begin);
    const auto end = std::ranges::find(map.ends, unit.end);
    facts.at.push_back({static_cast<std::uint8_t>(begin - map.begins.begin()),
                        static_cast<std::uint8_t>(end - map.ends.begin() + 1)});
  }
  return facts;
}

// The endings, the outermost first. Where one stands behind a part of a
// compound alone, `second` is the letter that begins the second part.
std::vector<TakenEnding> take_endings(const Reading& reading,
                                      const LetterMap& map, const CutWord& word,
                                      const Lexicon& lexicon,
                                      std::size_t& second) {
  if (auto possessive = take_possessive(reading, map.spelling, lexicon)) {
    return std::move(*possessive);
  }
  auto taken = peel_endings(map.spelling, word.sounds, lexicon);
  if (taken.empty() && !lexicon.is_not_inflected(map.spelling)) {
    PartEndings part = endings_of_part(word, lexicon);
    taken = std::move(part.endings);
    second = part.at;
  }
  return taken;
}

bool is_plain_consonant(const Unit& unit) {
  constexpr std::array<std::string_view, 9> kTeams = {
      "sh", "ch", "th", "ng", "ck", "ff", "ll", "ss", "zz"};
  if (unit.listed.size() != 1 || unit.irregular) return false;
  const std::string_view g = unit.grapheme;
  if (std::ranges::find(kTeams, g) != kTeams.end()) {
    return g != "ch" || unit.listed[0] == P::ch;
  }
  if (g == "wh") return unit.listed[0] == P::w;
  if (g == "tch") return true;
  if (g.size() != 1) return false;
  if (g == "c") return unit.listed[0] == P::k;
  if (g == "g") return unit.listed[0] == P::g;
  return true;
}

std::string find_shape(const Reading& reading) {
  std::string shape;
  for (const Unit& unit : reading.units) {
    if (has_vowel(unit)) {
      if (!is_plain_short_vowel(unit)) return {};
      shape += 'V';
    } else if (is_plain_consonant(unit)) {
      shape += 'C';
    } else {
      return {};
    }
  }
  return std::ranges::count(shape, 'V') == 1 ? shape : std::string{};
}

}  // namespace

bool has_vowel(const Unit& unit) {
  return std::ranges::any_of(unit.listed, is_vowel);
}

bool is_plain_short_vowel(const Unit& unit) {
  if (unit.grapheme.size() != 1 || unit.listed.size() != 1) return false;
  switch (unit.grapheme[0]) {
    case 'a':
      return unit.listed[0] == P::ae;
    case 'e':
      return unit.listed[0] == P::eh;
    case 'i':
    case 'y':
      return unit.listed[0] == P::ih;
    case 'o':
      return unit.listed[0] == P::aa || unit.listed[0] == P::ao;
    case 'u':
      return unit.listed[0] == P::ah;
    default:
      return false;
  }
}

EndingAnalysis find_outer_ending(const Reading& reading, const LetterMap& map,
                                 const Lexicon& all) {
  const Lexicon lexicon = all.with(reading.speech);
  std::size_t second = 0;
  auto taken =
      take_endings(reading, map, cut_units(reading, place_units(reading, map)),
                   lexicon, second);
  return taken.empty() ? EndingAnalysis{} : std::move(taken.front().analysis);
}

WordFacts find_facts(const Reading& reading, const LetterMap& map,
                     const Lexicon& all) {
  const Lexicon lexicon = all.with(reading.speech);
  WordFacts facts = place_units(reading, map);
  CutWord word = cut_units(reading, facts);
  std::size_t second = 0;
  const std::vector<TakenEnding> taken =
      take_endings(reading, map, word, lexicon, second);
  place_endings(taken, facts);
  facts.prefix = find_prefix(reading, facts, lexicon);
  facts.mark = map.spelling.find('\'') != std::string::npos  ? "apostrophe"
               : map.spelling.find('-') != std::string::npos ? "hyphen"
                                                             : "";
  if (second == 0) {
    second = find_second_word(std::move(word), taken, facts, lexicon);
  }
  facts.compound_at = unit_at(facts, second);
  facts.compound_letter = second;
  std::size_t i = 0;
  for (; i < reading.units.size() && !has_vowel(reading.units[i]); ++i) {
    if (i > 0) facts.onset += '+';
    facts.onset += reading.units[i].grapheme;
  }
  std::size_t last = reading.units.size();
  while (last > 0 && !has_vowel(reading.units[last - 1])) --last;
  // In "paste" the blend is not at the end of the word.
  const bool e_behind = std::ranges::any_of(reading.units, [&](const Unit& u) {
    return u.split_e >= 0 && map.ends.back() == u.split_e + 1;
  });
  if (e_behind) last = reading.units.size();
  for (; last < reading.units.size(); ++last) {
    if (!facts.coda.empty()) facts.coda += '+';
    facts.coda += reading.units[last].grapheme;
  }
  if (reading.syllables() == 1) facts.shape = find_shape(reading);
  return facts;
}

}  // namespace sheaf
