#include "sheets/word_division.h"

#include <algorithm>
#include <array>
#include <optional>

#include "base/utf8.h"
#include "phonics/letter_map.h"
#include "phonics/prefix_meanings.h"
#include "phonics/word_facts.h"

namespace sheaf {

EndingAnalysis base_and_ending(const Reading& reading, const Phonics& phonics) {
  const LetterMap map = map_letters(reading.word);
  if (!map.good) return {};
  const auto endings = find_facts(reading, map, phonics.lexicon()).endings;
  if (endings.empty()) return {};
  const EndingAnalysis& outer = endings.front().analysis;
  // girls' shows no 's; there is no unhelp.
  const bool shown = map.spelling.ends_with(ending_text(outer.ending));
  return shown && phonics.knows(outer.base) ? outer : EndingAnalysis{};
}

PrefixedWord prefix_and_base(const Reading& reading, const Phonics& phonics) {
  const LetterMap map = map_letters(reading.word);
  if (!map.good) return {};
  const std::string_view prefix =
      find_facts(reading, map, phonics.lexicon()).prefix;
  if (prefix.empty()) return {};
  std::string base = reading.word.substr(prefix.size());
  if (base.starts_with('-')) base.erase(0, 1);
  return {.prefix = reading.word.substr(0, prefix.size()),
          .base = base,
          .meaning = prefix_meaning(prefix, base)};
}

std::string_view change_name(Joint joint) {
  switch (joint) {
    case Joint::doubled:
      return "the last letter is doubled";
    case Joint::dropped_e:
      return "e is dropped";
    case Joint::y_to_i:
      return "y changes to i";
    case Joint::f_to_v:
      return "f changes to v";
    case Joint::c_to_ck:
      return "c becomes ck";
    case Joint::ie_to_y:
      return "ie changes to y";
    case Joint::plain:
      break;
  }
  return "nothing changes";
}

namespace {

bool is_vowel_unit(const Unit& unit) {
  return std::ranges::any_of(unit.phonemes, is_vowel);
}

// A vowel that wants a consonant to close its syllable. The a of father is not
// one, whatever its sound.
bool is_short_and_stressed(const Unit& unit) {
  if (!unit.stressed || unit.is_split() || unit.phonemes.size() != 1) {
    return false;
  }
  const Phoneme sound = unit.phonemes.front();
  if (sound == Phoneme::aa && unit.grapheme == "a") return false;
  // Nor is the vowel of saw, where it is said as short o.
  if (sound == Phoneme::oh && unit.grapheme.size() > 1 &&
      unit.listed.front() == Phoneme::ao && unit.grapheme != "ou") {
    return false;
  }
  return is_short_vowel(sound) && sound != Phoneme::ax;
}

// Letters that cannot begin a syllable.
bool only_closes(std::string_view grapheme) {
  constexpr std::array<std::string_view, 6> kClosing = {"ck",  "ng", "x",
                                                        "tch", "dg", "dge"};
  return std::ranges::find(kClosing, grapheme) != kClosing.end();
}

// Two letters for one sound of which each goes its own way: rab-bit, lis-ten.
bool parts_in_two(std::string_view grapheme) {
  return grapheme.size() == 2 &&
         (grapheme[0] == grapheme[1] || grapheme == "st");
}

bool same_or_weak(Phoneme a, Phoneme b) {
  const auto weak = [](Phoneme p) {
    return p == Phoneme::ax || p == Phoneme::ih;
  };
  return a == b || (weak(a) && weak(b));
}

// Bases are words that everybody knows: there is "tok" in larger lists.
constexpr int kLargestBaseList = 50;

// The unit of the e where -en stands behind a word that sounds as it does by
// itself: brighten, golden, not open, listen or oven. 0 where there is none.
std::size_t ending_en(const Reading& reading, const Phonics& phonics) {
  const std::vector<Unit>& units = reading.units;
  for (std::size_t i = units.size(); i-- > 2;) {
    if (units[i].grapheme != "n" || units[i - 1].grapheme != "e") continue;
    const std::string base = lower_case(
        std::string_view(reading.word).substr(0, units[i - 1].begin));
    const auto info = phonics.info(base);
    if (!info || info->name ||
        (!info->everyday &&
         (info->tier == 0 || info->tier > kLargestBaseList))) {
      return 0;
    }
    std::vector<Phoneme> whole, own;
    for (std::size_t k = 0; k + 1 < i; ++k) {
      whole.insert(whole.end(), units[k].listed.begin(), units[k].listed.end());
    }
    const std::vector<Reading> alone =
        phonics.read(base, conventions_for(reading.speech.accent));
    for (const Unit& unit : alone.front().units) {
      own.insert(own.end(), unit.listed.begin(), unit.listed.end());
    }
    return std::ranges::equal(whole, own, same_or_weak) ? i - 1 : 0;
  }
  return 0;
}

// The byte where the syllable that begins with unit `index` begins in print;
// `en` is the unit of an ending -en.
std::size_t syllable_begin(const Reading& reading, std::size_t index,
                           std::size_t en) {
  const Unit& unit = reading.units[index];
  const Unit& before = reading.units[index - 1];
  if (is_vowel_unit(unit)) return unit.begin;
  if (parts_in_two(unit.grapheme)) return unit.begin + 1U;
  const bool closes = is_vowel_unit(before) && is_short_and_stressed(before);
  const bool before_en = en > 0 && (index + 1 == en || index == en + 1);
  const bool moves = closes || before_en || only_closes(unit.grapheme);
  if (!moves || index + 1 >= reading.units.size()) return unit.begin;
  return reading.units[index + 1].begin;
}

// Where the word's endings begin, as bytes, the last first: 4 of landed. An
// ending whose letters the next one changed is not there to be seen.
std::vector<std::size_t> ending_begins(const Reading& reading,
                                       const Phonics& phonics) {
  const LetterMap map = map_letters(reading.word);
  if (!map.good) return {};
  std::vector<std::size_t> begins;
  std::size_t end = reading.word.size();
  for (const auto& placed :
       find_facts(reading, map, phonics.lexicon()).endings) {
    const std::string_view text = ending_text(placed.analysis.ending);
    const std::string_view left = std::string_view(reading.word).substr(0, end);
    if (placed.changed || !left.ends_with(text)) break;
    end -= text.size();
    begins.push_back(end);
  }
  return begins;
}

}  // namespace

std::vector<std::string> syllable_letters(const Reading& reading,
                                          const Phonics& phonics) {
  const std::size_t en = ending_en(reading, phonics);
  std::vector<std::size_t> begins = {0};
  for (std::size_t i = 1; i < reading.units.size(); ++i) {
    if (reading.units[i].syllable == reading.units[i - 1].syllable) continue;
    begins.push_back(syllable_begin(reading, i, en));
  }
  for (const std::size_t ending : ending_begins(reading, phonics)) {
    // The beat of its vowel, if that stands in the ending: not the ie of cried.
    const auto vowel = std::ranges::find_if(reading.units, [&](const Unit& u) {
      return u.begin >= ending && is_vowel_unit(u);
    });
    if (vowel != reading.units.end() && vowel->syllable > 0) {
      begins[vowel->syllable] = ending;
    }
  }
  std::vector<std::string> pieces;
  for (std::size_t i = 0; i < begins.size(); ++i) {
    const std::size_t end =
        i + 1 < begins.size() ? begins[i + 1] : reading.word.size();
    pieces.push_back(reading.word.substr(begins[i], end - begins[i]));
  }
  return pieces;
}

}  // namespace sheaf
