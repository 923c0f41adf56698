#include "planning/pseudo_parts.h"

#include <algorithm>
#include <array>

#include "phonics/alike.h"
#include "phonics/lexicon.h"
#include "phonics/word_facts.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostUnits = 5;
constexpr std::size_t kMostInRest = 3;

// Digraphs that any word may have.
bool is_common_digraph(const std::string& grapheme) {
  constexpr std::array<std::string_view, 10> kCommon = {
      "sh", "ch", "th", "ng", "ck", "ff", "ll", "ss", "qu", "tch"};
  return std::ranges::find(kCommon, grapheme) != kCommon.end();
}

// A grapheme outside the pattern that leaves nothing to doubt.
bool is_plain(const Unit& unit) {
  if (has_vowel(unit)) return is_plain_short_vowel(unit);
  if (unit.grapheme == "ch") return unit.listed[0] == Phoneme::ch;
  if (unit.grapheme.size() > 1) return is_common_digraph(unit.grapheme);
  switch (unit.grapheme[0]) {
    case 'c':
      return unit.listed[0] == Phoneme::k;
    case 'g':
      return unit.listed[0] == Phoneme::g;
    case 's':
      return unit.listed[0] == Phoneme::s;
    default:
      return true;
  }
}

bool is_soft(char letter) {
  return letter == 'e' || letter == 'i' || letter == 'y';
}

// Letters that no English word ends with; the rest of an everyday word may be
// that of a foreign or a shortened one. f, l, s and z are doubled behind a
// short vowel, but for words that everyone knows by sight (if, gas, pal).
bool ends_well(const std::vector<Unit>& units, const std::string& letters) {
  constexpr std::array<char, 6> kNever = {'c', 'j', 'q', 'v', 'z', 'u'};
  constexpr std::array<char, 3> kDoubled = {'f', 'l', 's'};
  const char last = letters.back();
  if (letters.size() > 1 && letters[letters.size() - 2] == last) return true;
  if (std::ranges::find(kNever, last) != kNever.end()) return false;
  const bool alone = units.size() == 2 && units[1].grapheme.size() == 1 &&
                     is_plain_short_vowel(units[0]);
  return !alone || std::ranges::find(kDoubled, last) == kDoubled.end();
}

// Beginnings with a silent letter, fit for their own pattern only.
bool is_plain_onset(const std::string& letters) {
  constexpr std::array<std::string_view, 8> kOdd = {"kn", "wr", "gn", "gh",
                                                    "ph", "rh", "ps", "sc"};
  return letters == "sc" ||
         std::ranges::none_of(kOdd, [&](std::string_view odd) {
           return letters.starts_with(odd);
         });
}

class PartFinder {
 public:
  PartFinder(const SearchGround& source, PatternId pattern)
      : source_(source), pattern_(pattern) {
    parts_.of_word = !source.phonics.patterns()[pattern].of_units;
  }

  PseudoParts run() {
    for (const PatternWord& word : source_.phonics.everyday_pattern_words(
             pattern_, source_.conventions)) {
      if (word.syllables == 1 && !word.readings &&
          word.word.size() <= kMostPseudoLetters && !word.affix) {
        add_own(word.word);
      }
    }
    if (parts_.onsets.empty() && parts_.rests.empty()) return {};
    add_plain_words();
    for (auto& [letters, rest] : parts_.rests) {
      rest.words = words_with_rest_[letters];
      const std::vector<Unit> vowel(rest.units.begin(), rest.units.begin() + 1);
      const bool mostly =
          is_usual(sounds_of_rest_, letters, rest.units) &&
          (rest.units.size() == 1 ||
           is_usual(sounds_of_vowel_, vowel[0].grapheme, vowel));
      rest.unsure =
          sounds_of_rest_[letters].size() > 1 && !(rest.has_pattern && mostly);
    }
    // What only looks like a rest of plain words is none.
    std::erase_if(parts_.rests, [&](const auto& entry) {
      const PseudoPart& rest = entry.second;
      return ((!rest.has_pattern || parts_.of_word) && rest.unsure) ||
             !ends_well(rest.units, entry.first);
    });
    std::erase_if(parts_.onsets, [&](const auto& entry) {
      const PseudoPart& onset = entry.second;
      return onset.has_pattern ? !is_usual(sounds_of_onset_,
                                           onset_key(onset.units), onset.units)
                               : !is_plain_onset(entry.first);
    });
    return std::move(parts_);
  }

 private:
  static bool is_spelled_plainly(const std::string& word) {
    return word.size() <= kMostPseudoLetters &&
           word.find_first_not_of("abcdefghijklmnopqrstuvwxyz") ==
               std::string::npos;
  }

  // Everyday words of one beat; which of them have the pattern is known.
  void add_plain_words() {
    const Lexicon& lexicon = source_.phonics.lexicon();
    std::string last;
    lexicon.each([&](const WordRecord& record) {
      if (!record.everyday) return false;
      if (record.name || record.spelling == last ||
          !is_spelled_plainly(record.spelling) ||
          record.segments.size() > kMostUnits ||
          syllable_count(record.segments, lexicon.inventory()) != 1) {
        return true;
      }
      last = record.spelling;
      add(*source_.phonics.first_units(record.spelling, source_.conventions),
          nullptr);
      return true;
    });
  }

  void add_own(const std::string& word) {
    if (!is_spelled_plainly(word)) return;
    const auto reading =
        source_.phonics.first_reading(word, source_.conventions);
    const PatternPlace* place = reading->find(pattern_);
    if (place == nullptr || reading->units.size() > kMostUnits) return;
    // What tried ends in is its ending.
    const WordFacts facts =
        find_facts(*reading, map_letters(word), source_.phonics.lexicon());
    if (facts.endings.empty()) add(*reading, place);
  }

  // Whether letters say in more words what they say here than anything else:
  // not the th of this, the ch of chef, the ar of wharf.
  using Counts = std::map<std::string, std::map<std::vector<Phoneme>, int>>;
  static bool is_usual(const Counts& counts, const std::string& letters,
                       const std::vector<Unit>& units) {
    const auto found = counts.find(letters);
    if (found == counts.end()) return true;
    const auto own = found->second.find(listed_sounds(units));
    return own != found->second.end() &&
           std::ranges::all_of(found->second, [&](const auto& other) {
             return other.second <= own->second;
           });
  }

  // c and g say another sound before e, i, y.
  static std::string onset_key(const std::vector<Unit>& units) {
    std::string key;
    for (const Unit& unit : units) {
      key += unit.grapheme;
      const bool soft =
          unit.listed[0] == Phoneme::s || unit.listed[0] == Phoneme::jh;
      if (unit.grapheme == "c" || unit.grapheme == "g") key += soft ? "'" : "";
    }
    return key;
  }

  void add(const Reading& reading, const PatternPlace* place) {
    const auto vowel = std::ranges::find_if(
        reading.units, [](const Unit& unit) { return has_vowel(unit); });
    if (vowel == reading.units.end()) return;
    const auto first = static_cast<std::size_t>(vowel - reading.units.begin());
    const std::string letters = reading.word.substr(vowel->begin);
    const std::vector<Unit> rest(vowel, reading.units.end());
    if (place == nullptr) {
      const std::vector<Unit> beginning(reading.units.begin(), vowel);
      ++sounds_of_onset_[onset_key(beginning)][listed_sounds(beginning)];
      ++sounds_of_rest_[letters][listed_sounds(rest)];
      ++sounds_of_vowel_[vowel->grapheme][vowel->listed];
      ++words_with_rest_[letters];
    }
    const bool odd = std::ranges::any_of(
        reading.units, [](const Unit& unit) { return unit.irregular; });
    if (odd || !source_.taught.is_decodable(reading)) return;
    // What is not of the pattern is to be plain, and no ending.
    for (std::size_t i = 0; i < reading.units.size(); ++i) {
      const bool own = place != nullptr && !parts_.of_word &&
                       std::ranges::find(place->units, i) != place->units.end();
      if (!own && !is_plain(reading.units[i])) return;
    }
    if (reading.word.ends_with('s') && !reading.word.ends_with("ss")) return;
    const auto inside = [&](std::size_t begin, std::size_t end) {
      if (place == nullptr) return false;
      // Both parts of a word with a pattern of the whole word make such words.
      if (parts_.of_word) return true;
      return std::ranges::all_of(place->units, [&](std::size_t unit) {
        return unit >= begin && unit < end;
      });
    };
    const std::string beginning = reading.word.substr(0, vowel->begin);
    if (place != nullptr) parts_.own_onsets.insert(beginning);
    put(parts_.onsets, beginning, {reading.units.begin(), vowel},
        inside(0, first));
    if (rest.size() > kMostInRest) return;
    put(parts_.rests, letters, rest, inside(first, reading.units.size()));
  }

  static void put(std::map<std::string, PseudoPart>& parts,
                  const std::string& letters, std::vector<Unit> units,
                  bool has_pattern) {
    PseudoPart& part = parts[letters];
    if (part.has_pattern && !has_pattern) return;
    part = {letters, std::move(units), has_pattern};
  }

  const SearchGround& source_;
  PatternId pattern_;
  PseudoParts parts_;
  // How many everyday words say the letters so.
  Counts sounds_of_onset_, sounds_of_vowel_, sounds_of_rest_;
  std::map<std::string, int> words_with_rest_;
};

}  // namespace

namespace {

bool is_sayable_after_w(const PseudoPart& rest) {
  constexpr std::array<std::string_view, 8> kNot = {"a",  "o",  "u",  "ar",
                                                    "or", "oo", "ou", "al"};
  return rest.unsure ||
         std::ranges::find(kNot, rest.units.front().grapheme) == kNot.end();
}

}  // namespace

PseudoParts find_parts(const SearchGround& source, PatternId pattern) {
  return PartFinder(source, pattern).run();
}

bool can_join(const PseudoPart& onset, const PseudoPart& rest) {
  if (onset.units.empty()) return true;
  const char next = rest.letters.front();
  const Unit& last = onset.units.back();
  const bool soft = is_soft(next);
  if (last.grapheme == "c") return (last.listed[0] == Phoneme::s) == soft;
  if (last.grapheme == "g") return (last.listed[0] == Phoneme::jh) == soft;
  if (last.grapheme == "k" || last.grapheme == "sk") return soft;
  const char end = onset.letters.back();
  if (onset.letters.ends_with("qu") &&
      std::string_view("ouy").find(next) != std::string_view::npos) {
    return false;
  }
  // An a or o behind a /w/ says something else; oo and u are hard to say there.
  const bool w = end == 'w' || onset.letters.ends_with("wh") ||
                 onset.letters.ends_with("qu");
  if (w) return is_sayable_after_w(rest);
  if (last.grapheme == "gu") return next == 'e' || next == 'i';
  if (last.grapheme == "gh") return next == 'e' || next == 'i' || next == 'o';
  if (end == 'y') return next != 'y' && next != 'i';
  return true;
}

}  // namespace sheaf
