#include "planning/pseudo_words.h"

#include <algorithm>
#include <array>
#include <map>

#include "base/shuffle.h"
#include "phonics/word_facts.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostLetters = 6;
constexpr std::size_t kMostUnits = 5;
constexpr std::size_t kMostInRest = 3;
// How often the part with the pattern comes for once that the other does.
constexpr int kOwnUses = 4;

// Digraphs that any word may have.
bool is_common_digraph(const std::string& grapheme) {
  constexpr std::array<std::string_view, 9> kCommon = {
      "sh", "ch", "th", "ng", "ck", "ff", "ll", "ss", "tch"};
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

// The beginning of a word up to its vowel, or the rest of it.
struct Part {
  std::string letters;
  std::vector<Unit> units;
  bool has_pattern = false;
};

using Sounds = std::vector<Phoneme>;

Sounds sounds_of(const std::vector<Unit>& units) {
  Sounds sounds;
  for (const Unit& unit : units) {
    sounds.insert(sounds.end(), unit.listed.begin(), unit.listed.end());
  }
  return sounds;
}

bool is_soft(char letter) {
  return letter == 'e' || letter == 'i' || letter == 'y';
}

// Whether a beginning can stand before a rest.
bool can_join(const Part& onset, const Part& rest) {
  const char next = rest.letters.front();
  if (onset.units.empty()) return true;
  const Unit& last = onset.units.back();
  const bool soft = is_soft(next);
  if (last.grapheme == "c") return (last.listed[0] == Phoneme::s) == soft;
  if (last.grapheme == "g") return (last.listed[0] == Phoneme::jh) == soft;
  if (last.grapheme == "k" || last.grapheme == "sk") return soft;
  // An a or o behind a /w/ says something else; oo and u are hard to say there.
  const char end = onset.letters.back();
  const bool w = end == 'w' || onset.letters.ends_with("wh") ||
                 onset.letters.ends_with("qu");
  if (w) return next == 'e' || next == 'i';
  if (onset.letters.ends_with("gu")) return false;
  if (end == 'y') return next != 'y' && next != 'i';
  return true;
}

// Letters that no English word ends with; the rest of an everyday word may be
// that of a foreign or a shortened one.
bool ends_well(const std::string& letters) {
  constexpr std::array<char, 6> kNever = {'c', 'j', 'q', 'v', 'z', 'u'};
  const char last = letters.back();
  const bool doubled =
      letters.size() > 1 && letters[letters.size() - 2] == last;
  return doubled || std::ranges::find(kNever, last) == kNever.end();
}

// Beginnings with a silent letter, fit for their own pattern only.
bool is_plain_onset(const std::string& letters) {
  constexpr std::array<std::string_view, 8> kOdd = {"kn", "wr", "gn", "gh",
                                                    "ph", "rh", "ps", "sc"};
  return std::ranges::none_of(
      kOdd, [&](std::string_view odd) { return letters.starts_with(odd); });
}

class PartFinder {
 public:
  PartFinder(const SearchGround& source, PatternId pattern)
      : source_(source), pattern_(pattern) {}

  void run() {
    source_.phonics.each_word(
        0, source_.conventions,
        [&](const Reading& reading, const WordInfo& info) {
          if (!info.name) add(reading);
          return true;
        });
    // A rest that says two things in two words is left out.
    std::erase_if(rests_, [&](const auto& entry) {
      return sounds_of_rest_[entry.first].size() > 1 || !ends_well(entry.first);
    });
    std::erase_if(onsets_, [&](const auto& entry) {
      return !entry.second.has_pattern && !is_plain_onset(entry.first);
    });
  }

  const std::map<std::string, Part>& onsets() const { return onsets_; }
  const std::map<std::string, Part>& rests() const { return rests_; }
  /// Whether learners have met the rest in one word at most.
  bool is_rare(const std::string& rest) const {
    const auto found = words_with_rest_.find(rest);
    return found == words_with_rest_.end() || found->second < 2;
  }

 private:
  void add(const Reading& reading) {
    if (reading.syllables() != 1 || reading.units.size() > kMostUnits ||
        reading.word.size() > kMostLetters) {
      return;
    }
    if (reading.word.find_first_not_of("abcdefghijklmnopqrstuvwxyz") !=
        std::string::npos) {
      return;
    }
    const auto vowel = std::ranges::find_if(
        reading.units, [](const Unit& unit) { return has_vowel(unit); });
    if (vowel == reading.units.end()) return;
    const auto first = static_cast<std::size_t>(vowel - reading.units.begin());
    const std::string letters = reading.word.substr(vowel->begin);
    const std::vector<Unit> rest(vowel, reading.units.end());
    sounds_of_rest_[letters].insert(sounds_of(rest));
    ++words_with_rest_[letters];

    const bool odd = std::ranges::any_of(
        reading.units, [](const Unit& unit) { return unit.irregular; });
    if (odd || !source_.taught.is_decodable(reading)) return;
    const PatternPlace* place = reading.find(pattern_);
    // What is not of the pattern is to be plain, and no ending.
    for (std::size_t i = 0; i < reading.units.size(); ++i) {
      const bool own = place != nullptr &&
                       std::ranges::find(place->units, i) != place->units.end();
      if (!own && !is_plain(reading.units[i])) return;
    }
    if (reading.word.ends_with('s') && !reading.word.ends_with("ss")) return;
    const auto inside = [&](std::size_t begin, std::size_t end) {
      return place != nullptr && !place->units.empty() &&
             std::ranges::all_of(place->units, [&](std::size_t unit) {
               return unit >= begin && unit < end;
             });
    };
    put(onsets_, reading.word.substr(0, vowel->begin),
        {reading.units.begin(), vowel}, inside(0, first));
    if (rest.size() > kMostInRest) return;
    put(rests_, letters, rest, inside(first, reading.units.size()));
  }

  static void put(std::map<std::string, Part>& parts,
                  const std::string& letters, std::vector<Unit> units,
                  bool has_pattern) {
    Part& part = parts[letters];
    if (part.has_pattern && !has_pattern) return;
    part = {letters, std::move(units), has_pattern};
  }

  const SearchGround& source_;
  PatternId pattern_;
  std::map<std::string, Part> onsets_, rests_;
  std::map<std::string, std::set<Sounds>> sounds_of_rest_;
  std::map<std::string, int> words_with_rest_;
};

bool is_fit(const SearchGround& source, const PseudoWord& made) {
  if (made.word.size() > kMostLetters || made.word.size() < 3) return false;
  const Sounds sounds = sounds_of(made.units);
  return !source.phonics.is_listed(made.word) &&
         !source.phonics.knows(made.word) &&
         !source.phonics.is_said_like_a_word(sounds) &&
         !BlockList::shipped().blocks_part_of(made.word, sounds) &&
         (source.blocked == nullptr ||
          !source.blocked->blocks_part_of(made.word, sounds)) &&
         // telled is what learners write for told.
         source.phonics.right_forms(made.word).empty();
}

struct Made {
  bool rare;  // its rest stands in one everyday word only
  std::uint64_t order;
  const Part* onset;
  const Part* rest;
};

}  // namespace

std::vector<PseudoWord> pseudo_words(const SearchGround& source,
                                     PatternId pattern, std::size_t count) {
  PartFinder parts(source, pattern);
  parts.run();
  std::vector<Made> all;
  for (const auto& [begin, onset] : parts.onsets()) {
    for (const auto& [end, rest] : parts.rests()) {
      if (onset.has_pattern == rest.has_pattern || !can_join(onset, rest)) {
        continue;
      }
      all.push_back(
          {parts.is_rare(end), text_hash(begin + end), &onset, &rest});
    }
  }
  std::ranges::stable_sort(all, [](const Made& a, const Made& b) {
    return std::tie(a.rare, a.order) < std::tie(b.rare, b.order);
  });
  // Each beginning and each rest once as long as there are others.
  std::vector<PseudoWord> words;
  std::map<const Part*, int> uses;
  std::set<std::string> made_words;
  for (int most = 1; most <= 3 && words.size() < count; ++most) {
    for (Made& made : all) {
      if (words.size() == count) break;
      if (made.onset == nullptr) continue;
      const Part* plain = made.onset->has_pattern ? made.rest : made.onset;
      const Part* own = made.onset->has_pattern ? made.onset : made.rest;
      if (uses[plain] >= most || uses[own] >= most * kOwnUses) continue;
      PseudoWord word{made.onset->letters + made.rest->letters,
                      made.onset->units};
      word.units.insert(word.units.end(), made.rest->units.begin(),
                        made.rest->units.end());
      made.onset = nullptr;  // seen
      if (!is_fit(source, word) || !made_words.insert(word.word).second) {
        continue;
      }
      ++uses[plain];
      ++uses[own];
      words.push_back(std::move(word));
    }
  }
  return words;
}

}  // namespace sheaf
