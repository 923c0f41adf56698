#include "phonics/word_facts.h"

#include <algorithm>
#include <array>

namespace sheaf {
namespace {

using P = Phoneme;

// Bases and parts must be words that people meet; larger lists have "ton" and
// "et" and nearly any other string.
constexpr int kLargestBaseList = 50;
constexpr int kLargestLongBaseList = 60;
constexpr int kLargestPartList = 40;

std::vector<P> listed_sounds(std::span<const Unit> units) {
  std::vector<P> all;
  for (const Unit& unit : units) {
    all.insert(all.end(), unit.listed.begin(), unit.listed.end());
  }
  return all;
}

bool same_sound(P a, P b) {
  const auto weak = [](P p) { return p == P::ax || p == P::ih; };
  const auto open_o = [](P p) { return p == P::aa || p == P::ao; };
  const auto th = [](P p) { return p == P::th || p == P::dh; };
  return a == b || (weak(a) && weak(b)) || (open_o(a) && open_o(b)) ||
         (th(a) && th(b));
}

bool begins_with(std::span<const P> whole, std::span<const P> part) {
  if (part.size() > whole.size()) return false;
  return std::equal(part.begin(), part.end(), whole.begin(), same_sound);
}

// What an ending sounds like; the base's own sounds stand before it.
bool fits_ending(Ending ending, std::span<const P> rest) {
  const auto is = [&](std::initializer_list<P> sounds) {
    return std::equal(rest.begin(), rest.end(), sounds.begin(), sounds.end(),
                      same_sound);
  };
  switch (ending) {
    case Ending::s:
    case Ending::possessive:
      return is({P::s}) || is({P::z}) || is({P::ih, P::z});
    case Ending::es:
      return is({P::ih, P::z}) || is({P::z});
    case Ending::ed:
      return is({P::t}) || is({P::d}) || is({P::ih, P::d});
    case Ending::ing:
      return is({P::ih, P::ng});
    case Ending::er:
      return is({P::er}) || is({P::r, P::er});
    case Ending::est:
      return is({P::ih, P::s, P::t}) || is({P::r, P::ih, P::s, P::t});
    case Ending::ly:
      return is({P::l, P::iy}) || is({P::iy}) || is({P::ax, P::l, P::iy});
    case Ending::y:
      return is({P::iy});
    case Ending::ful:
      return is({P::f, P::ih, P::l}) || is({P::f, P::uh, P::l});
    case Ending::less:
      return is({P::l, P::ih, P::s});
    case Ending::ness:
      return is({P::n, P::ih, P::s}) || is({P::ih, P::s});
    case Ending::ment:
      return is({P::m, P::ih, P::n, P::t});
    case Ending::none:
      return false;
  }
  return false;
}

bool base_sounds_fit(const EndingAnalysis& analysis, std::span<const P> word,
                     std::span<const P> base) {
  if (begins_with(word, base) &&
      fits_ending(analysis.ending, word.subspan(base.size()))) {
    return true;
  }
  // happy, happily: the last vowel is weaker.
  if (analysis.joint == Joint::y_to_i && base.size() > 1 &&
      base.back() == P::iy && word.size() > base.size()) {
    const auto stem = base.first(base.size() - 1);
    const P next = word[stem.size()];
    if (begins_with(word, stem) && same_sound(next, P::ih) &&
        fits_ending(analysis.ending, word.subspan(base.size()))) {
      return true;
    }
  }
  // gentle, gently; feeble, feebler: the weak vowel goes, and in gently the l
  // of both is one.
  if (base.size() < 3 || base.back() != P::l ||
      base[base.size() - 2] != P::ax) {
    return false;
  }
  const auto stem = base.first(base.size() - 2);
  if (!begins_with(word, stem)) return false;
  const auto rest = word.subspan(stem.size());
  if (analysis.ending == Ending::ly) return fits_ending(Ending::ly, rest);
  return rest.size() > 1 && rest[0] == P::l &&
         fits_ending(analysis.ending, rest.subspan(1));
}

// The ending of letters that sound like this.
EndingAnalysis ending_of(std::string_view letters, std::span<const P> sounds,
                         const Lexicon& lexicon) {
  if (lexicon.is_not_inflected(letters)) return {};
  const std::string_view only = lexicon.listed_ending(letters);
  return take_off_ending(letters, [&](const EndingAnalysis& analysis) {
    constexpr int kNotBase = -1;
    if (analysis.base.size() < 2) return kNotBase;
    if (!only.empty() && ending_text(analysis.ending) != only) return kNotBase;
    const std::uint32_t place = lexicon.find(analysis.base);
    if (place == kNoWord) return kNotBase;
    for (const WordRecord& record : lexicon.readings(place)) {
      if (record.name ||
          (!record.everyday &&
           (record.tier == 0 || record.tier > kLargestBaseList))) {
        continue;
      }
      if (base_sounds_fit(analysis, sounds,
                          phonemes_of(record.segments, lexicon.inventory()))) {
        return (record.everyday ? 0 : record.tier) + joint_rank(analysis);
      }
    }
    return kNotBase;
  });
}

// Little words that stand first in compounds.
bool may_be_part(std::string_view part) {
  constexpr std::array<std::string_view, 10> kSmall = {
      "up", "in", "on", "an", "no", "by", "it", "my", "to", "go"};
  return part.size() >= 3 || std::ranges::find(kSmall, part) != kSmall.end();
}

bool is_part(const Lexicon& lexicon, std::string_view part,
             std::span<const P> sounds) {
  if (!may_be_part(part)) return false;
  const std::uint32_t place = lexicon.find(part);
  if (place == kNoWord) return false;
  for (const WordRecord& record : lexicon.readings(place)) {
    if (record.name || (!record.everyday &&
                        (record.tier == 0 || record.tier > kLargestPartList))) {
      continue;
    }
    const std::vector<P> own =
        phonemes_of(record.segments, lexicon.inventory());
    if (std::ranges::equal(own, sounds, same_sound)) return true;
  }
  return false;
}

// fireman: behind another word the a of man is weak. No stretch of letters that
// is a word stands before it in woman, human or German.
bool is_weak_man(std::string_view part, std::span<const P> sounds) {
  return part == "man" && sounds.size() == 3 && sounds[0] == P::m &&
         same_sound(sounds[1], P::ax) && sounds[2] == P::n;
}

bool is_place_word(std::string_view part) {
  constexpr std::array<std::string_view, 6> kPlaces = {"up",  "in",   "out",
                                                       "off", "down", "after"};
  return std::ranges::find(kPlaces, part) != kPlaces.end();
}

// sunglasses: the second word of a compound has the ending, and there is no
// sunglass. Not upstairs.
EndingAnalysis ending_of_part(const Reading& reading, const WordFacts& facts,
                              const Lexicon& lexicon) {
  const std::string_view letters = facts.letters;
  for (std::size_t i = 1; i < reading.units.size(); ++i) {
    const std::size_t at = facts.at[i].begin;
    if (letters.size() < at + 4) break;
    const std::string_view first = letters.substr(0, at);
    const std::string_view second = letters.substr(at);
    const auto units = std::span(reading.units);
    if (is_place_word(first) || !lexicon.may_be_compound(first, second) ||
        !is_part(lexicon, first, listed_sounds(units.first(i)))) {
      continue;
    }
    EndingAnalysis ending =
        ending_of(second, listed_sounds(units.subspan(i)), lexicon);
    const bool plain =
        ending.ending == Ending::s || ending.ending == Ending::es ||
        ending.ending == Ending::ed || ending.ending == Ending::ing;
    if (!plain || !lexicon.may_be_compound(first, ending.base)) continue;
    ending.base.insert(0, first);
    return ending;
  }
  return {};
}

std::size_t find_compound(const Reading& reading, const WordFacts& facts,
                          const Lexicon& lexicon) {
  if (facts.letters.size() < 4) return 0;
  // An ending may stand behind a compound.
  const std::string_view base =
      facts.ending ? std::string_view(facts.ending.base) : facts.letters;
  std::size_t split_end = 0;
  for (std::size_t i = 0; i < facts.base_units; ++i) {
    const std::size_t letter = facts.at[i].begin;
    if (i > 0 && letter >= split_end && letter < base.size()) {
      const auto first = std::span(reading.units).first(i);
      const auto second =
          std::span(reading.units).first(facts.base_units).subspan(i);
      if (lexicon.may_be_compound(base.substr(0, letter),
                                  base.substr(letter)) &&
          is_part(lexicon, base.substr(0, letter), listed_sounds(first)) &&
          (is_part(lexicon, base.substr(letter), listed_sounds(second)) ||
           is_weak_man(base.substr(letter), listed_sounds(second)))) {
        return i;
      }
    }
    if (!reading.units[i].is_split()) continue;
    split_end = letter + 1;
    while (split_end < facts.letters.size() &&
           facts.letters[split_end] != 'e') {
      ++split_end;
    }
    ++split_end;
  }
  return 0;
}

constexpr std::array<std::string_view, 16> kPrefixes = {
    "inter", "super", "anti", "auto", "over", "dis", "mis", "non",
    "sub",   "pre",   "un",   "re",   "in",   "il",  "im",  "ir"};

bool ends_with(std::span<const P> whole, std::span<const P> part) {
  const auto alike = [](P a, P b) {
    return same_sound(a == P::iy ? P::ih : a, b == P::iy ? P::ih : b);
  };
  return part.size() <= whole.size() &&
         std::ranges::equal(whole.last(part.size()), part, alike);
}

// A prefix is one where the rest is a word that sounds as it does here:
// unhappy, not uncle; relay, not ready.
std::string_view find_prefix(const Reading& reading, const WordFacts& facts,
                             const Lexicon& lexicon) {
  if (lexicon.is_not_prefixed(facts.letters) ||
      lexicon.is_not_prefixed(facts.ending.base)) {
    return {};
  }
  for (const std::string_view prefix : kPrefixes) {
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
      if (own.size() > 1 && ends_with(whole, own)) return prefix;
    }
  }
  return {};
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

WordFacts find_facts(const Reading& reading, const LetterMap& map,
                     const Lexicon& lexicon) {
  WordFacts facts;
  facts.letters = map.letters;
  for (const Unit& unit : reading.units) {
    const auto begin = std::ranges::find(map.begins, unit.begin);
    const auto end = std::ranges::find(map.ends, unit.end);
    facts.at.push_back({static_cast<std::uint8_t>(begin - map.begins.begin()),
                        static_cast<std::uint8_t>(end - map.ends.begin() + 1)});
  }
  facts.ending = ending_of(map.spelling, listed_sounds(reading.units), lexicon);
  if (!facts.ending && !lexicon.is_not_inflected(map.spelling)) {
    facts.ending = ending_of_part(reading, facts, lexicon);
  }
  // girls', and 's behind any name; it's and its like stand in our own list.
  const std::string_view spelling = map.spelling;
  const bool plural = spelling.ends_with("s'");
  if (plural || spelling.ends_with("'s")) {
    facts.ending = {};
    const auto listed = lexicon.readings(spelling);
    if (plural || listed.empty() ||
        listed.front().origin == Reading::Origin::derived) {
      facts.ending = {
          Ending::possessive, Joint::plain,
          std::string(spelling.substr(0, spelling.size() - (plural ? 1 : 2)))};
    }
  }
  facts.base_units = reading.units.size();
  if (facts.ending) {
    const std::string_view text = ending_text(facts.ending.ending);
    const std::size_t letters = text.size() - (text.front() == '\'' ? 1 : 0);
    while (facts.base_units > 0 && facts.at[facts.base_units - 1].begin >=
                                       map.letters.size() - letters) {
      --facts.base_units;
    }
  }
  facts.prefix = find_prefix(reading, facts, lexicon);
  facts.mark = map.spelling.find('\'') != std::string::npos  ? "apostrophe"
               : map.spelling.find('-') != std::string::npos ? "hyphen"
                                                             : "";
  facts.compound_at = find_compound(reading, facts, lexicon);
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
