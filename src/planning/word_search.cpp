#include "planning/word_search.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string_view>

#include "base/nearest.h"
#include "phonics/endings.h"
#include "phonics/word_facts.h"

namespace sheaf {

namespace {

using Place = PatternWord::Place;

// Costs, in tenths of what one more sound costs. How they weigh against each
// other is a judgement, made by reading the first twenty words of every
// pattern.
constexpr int kSound = 10;
constexpr int kSyllable = 20;
constexpr int kOwnSecond = 12;    // one of our own words, in SCOWL 20
constexpr int kOwnThird = 30;     // one of our own, in larger lists only
constexpr int kSecondList = 45;   // SCOWL 10, and none of our own words
constexpr int kThirdList = 70;    // SCOWL 20
constexpr int kExtraLetter = 12;  // a sound that takes more than one letter
constexpr int kNoPicture = 15;
constexpr int kTwice = 25;
constexpr int kReadings = 80;  // said in two ways: read, wind
constexpr int kEnding = 40;    // shops, where the pattern is not an ending
constexpr int kIrregular = 40;
constexpr int kAlike = 8;
constexpr int kSameRime = 12;
constexpr int kWrongPlace = 400;
constexpr int kUnfit =
    1000;  // in a contrast: silent about its rule, then again

// How many candidates are read in full, for each word wanted.
constexpr std::size_t kReadForEach = 12;
// In a contrast, more: words that show the rule may be few.
constexpr std::size_t kReadForContrast = 5;

int rough_cost(const PatternWord& word) {
  int cost = word.phonemes * kSound + (word.syllables - 1) * kSyllable;
  const int letters = static_cast<int>(word.word.size());
  cost += std::max(0, letters - word.phonemes) * kExtraLetter;
  const bool small = word.info.tier > 0 && word.info.tier <= 10;
  const bool larger = !small && word.info.tier > 0 && word.info.tier <= 20;
  if (word.info.everyday) {
    cost += small ? 0 : larger ? kOwnSecond : kOwnThird;
  } else {
    cost += small ? kSecondList : kThirdList;
  }
  if (word.twice) cost += kTwice;
  if (word.readings) cost += kReadings;
  return cost;
}

// The base of a word by its letters, if that is a word too.
std::string base_of(const Phonics& phonics, const std::string& word) {
  const EndingAnalysis ending =
      take_off_ending(word, [&](const EndingAnalysis& analysis) {
        const auto info = phonics.info(analysis.base);
        if (!info || info->name) return -1;
        return info->everyday ? 0 : info->tier == 0 ? -1 : info->tier;
      });
  return ending.base;
}

// Whether a word is said like its base but for the end: hoping and hope, and
// not city and cite.
bool begins_like(const Reading& word, const Reading& base) {
  std::vector<Phoneme> said, of_base;
  for (const Unit& unit : word.units) {
    said.insert(said.end(), unit.listed.begin(), unit.listed.end());
  }
  for (const Unit& unit : base.units) {
    of_base.insert(of_base.end(), unit.listed.begin(), unit.listed.end());
  }
  if (of_base.size() > said.size()) return false;
  return std::equal(of_base.begin(), of_base.end() - 1, said.begin());
}

// Letters and marks of the first consonants, and all from the first vowel on.
std::string onset_of(const Reading& reading) {
  std::string onset;
  for (const Unit& unit : reading.units) {
    if (has_vowel(unit)) break;
    onset += unit.grapheme;
  }
  return onset;
}

std::string rime_of(const Reading& reading) {
  std::string rime;
  bool begun = false;
  for (const Unit& unit : reading.units) {
    begun = begun || has_vowel(unit);
    if (begun) rime += unit.grapheme + " ";
  }
  return rime;
}

// Spellings that American English has otherwise: the sounds and boxes are
// American by default, and a teacher's own list may hold any of them.
bool is_british(const Phonics& phonics, const std::string& word) {
  constexpr std::array<std::string_view, 12> kAlone = {
      "tyre",    "tyres",  "draught", "draughts", "dreamt", "grey",
      "pyjamas", "learnt", "spelt",   "misspelt", "spoilt", "leant"};
  if (std::ranges::find(kAlone, word) != kAlone.end()) return true;
  constexpr std::array<std::array<std::string_view, 2>, 10> kOther = {{
      {"ise", "ize"},
      {"isa", "iza"},
      {"isi", "izi"},
      {"lyse", "lyze"},
      {"bour", "bor"},
      {"vour", "vor"},
      {"lour", "lor"},
      {"nour", "nor"},
      {"mour", "mor"},
      {"tre", "ter"},
  }};
  constexpr std::size_t kShortest = 5;
  if (word.size() < kShortest) return false;
  return std::ranges::any_of(kOther, [&](const auto& pair) {
    const std::size_t at = word.rfind(pair[0]);
    if (at == std::string::npos || at == 0) return false;
    std::string american = word;
    american.replace(at, pair[0].size(), pair[1]);
    return phonics.knows(american);
  });
}

class Search {
 public:
  Search(const SearchGround& source, const WordQuery& query)
      : source_(source),
        query_(query),
        pattern_(source.phonics.patterns()[query.pattern]) {}

  // In order of cost, each read in full; stops after `most`. Where only the
  // cheapest is wanted, it stops as soon as no other can cost less: reading in
  // full only adds to a cost.
  std::vector<FoundWord> run(std::size_t most, bool only_cheapest = false) {
    struct Ranked {
      int later, cost;
      const PatternWord* word;
    };
    std::vector<Ranked> ranked;
    for (const PatternWord& w : source_.phonics.pattern_words(query_.pattern)) {
      if (fits(w)) ranked.push_back({w.later ? 1 : 0, rough_cost(w), &w});
    }
    std::ranges::sort(ranked, [](const Ranked& a, const Ranked& b) {
      if (a.later != b.later) return a.later < b.later;
      if (a.cost != b.cost) return a.cost < b.cost;
      return a.word->word < b.word->word;
    });
    std::vector<FoundWord> found;
    for (const Ranked& r : ranked) {
      if (found.size() >= most) break;
      const auto costs_no_more = [&](const FoundWord& w) {
        return w.cost <= r.cost;
      };
      if (only_cheapest && std::ranges::any_of(found, costs_no_more)) break;
      read(*r.word, r.cost, found);
    }
    std::ranges::stable_sort(found, [](const FoundWord& a, const FoundWord& b) {
      const bool a_breaks = a.fit == ContrastFit::breaks;
      const bool b_breaks = b.fit == ContrastFit::breaks;
      if (a_breaks != b_breaks) return b_breaks;
      return a.later != b.later ? a.later < b.later : a.cost < b.cost;
    });
    return found;
  }

 private:
  bool fits(const PatternWord& word) const {
    const auto letters = std::ranges::count_if(
        word.word, [](char c) { return c >= 'a' && c <= 'z'; });
    if (!query_.syllables.holds(word.syllables) ||
        !query_.letters.holds(static_cast<int>(letters)) || letters < 2) {
      return false;
    }
    // A word with an apostrophe is about that.
    return word.word.find('\'') == std::string::npos ||
           pattern_.id == "contraction" || pattern_.id == "possessive";
  }

  // Looked at last: it takes longer than the rest.
  bool is_suitable(const std::string& word) const {
    return !is_british(source_.phonics, word) &&
           !BlockList::shipped().blocks(word) &&
           (source_.blocked == nullptr || !source_.blocked->blocks(word));
  }

  void read(const PatternWord& word, int cost, std::vector<FoundWord>& found) {
    const bool picture = source_.has_picture && source_.has_picture(word.word);
    if (query_.pictures_only && !picture) return;
    if (std::ranges::any_of(query_.leave_out, [&](const std::string& other) {
          return is_same_word(other, word.word);
        })) {
      return;
    }
    const auto units =
        source_.phonics.first_units(word.word, source_.conventions);
    if (!source_.taught.may_be_decodable(*units)) return;
    auto whole = source_.phonics.first_reading(word.word, source_.conventions);
    const Reading& reading = *whole;
    const PatternPlace* place = reading.find(query_.pattern);
    if (place == nullptr || !source_.taught.is_decodable(reading)) return;
    for (const PatternId other : query_.without) {
      if (reading.find(other) != nullptr) return;
    }
    if (!is_suitable(word.word)) return;
    const ContrastFit fit =
        source_.phonics.fit_of(reading, query_.pattern, query_.without);
    cost += reading_cost(reading, *place) + static_cast<int>(fit) * kUnfit;
    if (!picture) cost += kNoPicture;
    std::string base = base_of(source_.phonics, word.word);
    if (!base.empty() &&
        !begins_like(reading, *source_.phonics.first_units(
                                  base, source_.conventions))) {
      base.clear();
    }
    if (!pattern_is_ending() && !base.empty()) cost += kEnding;
    found.push_back({std::move(whole), word.info, word.place, word.later,
                     picture, fit, cost, std::move(base)});
  }

  // Graphemes of the rest of the word that are not plain.
  int reading_cost(const Reading& reading, const PatternPlace& place) const {
    int cost = 0;
    for (std::size_t i = 0; i < reading.units.size(); ++i) {
      const bool own = pattern_.of_units &&
                       std::ranges::find(place.units, i) != place.units.end();
      if (own) continue;
      const Unit& unit = reading.units[i];
      if (unit.irregular) cost += kIrregular;
      const bool plain = has_vowel(unit) ? is_plain_short_vowel(unit)
                                         : unit.grapheme.size() == 1;
      if (!plain) cost += kExtraLetter;
    }
    return cost;
  }

  bool pattern_is_ending() const {
    constexpr std::array<std::string_view, 7> kParts = {
        "ed_", "ing", "er_est", "ly", "ful_less_ness", "plural_", "suffix_"};
    return std::ranges::any_of(kParts,
                               [&](std::string_view part) {
                                 return pattern_.id.starts_with(part);
                               }) ||
           pattern_.id == "es_yi" || pattern_.id.starts_with("y_d") ||
           pattern_.id == "y_ending" || pattern_.id.starts_with("prefix_");
  }

  const SearchGround& source_;
  const WordQuery& query_;
  const Pattern& pattern_;
};

// The place in which a first set has its words: the one where the best of them
// cost least together.
Place best_place(const std::vector<FoundWord>& words, std::size_t count) {
  Place best = Place::middle;
  long best_cost = -1;
  for (const Place place : {Place::first, Place::middle, Place::last}) {
    long cost = 0;
    std::size_t found = 0;
    for (const FoundWord& w : words) {
      if (w.place != place || found == count) continue;
      cost += w.cost + (w.later ? kWrongPlace / 2 : 0);
      ++found;
    }
    cost += static_cast<long>(count - found) * kWrongPlace;
    if (best_cost < 0 || cost < best_cost) {
      best = place;
      best_cost = cost;
    }
  }
  return best;
}

// Takes words one by one, each time the cheapest when likeness to those already
// taken is counted in.
class Selection {
 public:
  Selection(const std::vector<FoundWord>& words, const WordQuery& query)
      : words_(words), query_(query), place_(best_place(words, query.count)) {
    for (const FoundWord& word : words) {
      likeness_.push_back({onset_of(*word.reading), rime_of(*word.reading)});
    }
  }

  std::vector<FoundWord> take() {
    // Where toy is there, toys is not wanted, however much less alike it is.
    std::set<std::string_view> all;
    for (const FoundWord& word : words_) all.insert(word.reading->word);
    std::vector<bool> taken;
    for (const FoundWord& word : words_) {
      taken.push_back(!word.base.empty() && all.contains(word.base));
    }
    while (chosen_.size() < query_.count) {
      int best = -1;
      int best_cost = 0;
      for (std::size_t i = 0; i < words_.size(); ++i) {
        if (taken[i] || repeats(words_[i])) continue;
        const int cost = cost_now(i);
        if (best >= 0 && cost >= best_cost) continue;
        best = static_cast<int>(i);
        best_cost = cost;
      }
      if (best < 0) break;
      taken[static_cast<std::size_t>(best)] = true;
      add(static_cast<std::size_t>(best));
    }
    return std::move(chosen_);
  }

 private:
  bool repeats(const FoundWord& word) const {
    return std::ranges::any_of(chosen_, [&](const FoundWord& other) {
      return other.reading->word == word.reading->word ||
             other.base == word.reading->word ||
             (!word.base.empty() &&
              (word.base == other.base || word.base == other.reading->word));
    });
  }

  int cost_now(std::size_t i) const {
    const FoundWord& word = words_[i];
    int cost = word.cost;
    if (query_.first_set) {
      if (word.later) cost += kWrongPlace / 2;
      if (word.place != place_) cost += kWrongPlace;
    } else {
      const auto same = places_.find(word.place);
      if (same != places_.end()) cost += same->second * kAlike / 2;
    }
    const Likeness& own = likeness_[i];
    if (const auto n = onsets_.find(own.onset); n != onsets_.end()) {
      cost += n->second * kAlike;
    }
    if (const auto n = rimes_.find(own.rime); n != rimes_.end()) {
      cost += n->second * kSameRime;
    }
    return cost;
  }

  void add(std::size_t i) {
    ++onsets_[likeness_[i].onset];
    ++rimes_[likeness_[i].rime];
    ++places_[words_[i].place];
    chosen_.push_back(words_[i]);
  }

  const std::vector<FoundWord>& words_;
  const WordQuery& query_;
  Place place_;
  struct Likeness {
    std::string onset, rime;
  };
  std::vector<Likeness> likeness_;  // of each word
  std::vector<FoundWord> chosen_;
  std::map<std::string, int> onsets_, rimes_;
  std::map<Place, int> places_;
};

}  // namespace

bool is_same_word(std::string_view a, std::string_view b) {
  constexpr std::array kEndings = {Ending::s,   Ending::es,        Ending::ed,
                                   Ending::ing, Ending::er,        Ending::y,
                                   Ending::ly,  Ending::possessive};
  if (a == b) return true;
  if (a.size() > b.size()) std::swap(a, b);
  // No ending changes more than the last two letters: knife, knives.
  if (a.size() < 3 || !b.starts_with(a.substr(0, a.size() - 2))) return false;
  return std::ranges::any_of(kEndings, [&](Ending ending) {
    const auto bases = possible_bases(b, ending);
    return std::ranges::find(bases, a, &EndingAnalysis::base) != bases.end();
  });
}

std::vector<FoundWord> candidates(const SearchGround& source,
                                  const WordQuery& query, std::size_t most) {
  return Search(source, query).run(most);
}

std::vector<FoundWord> find_words(const SearchGround& source,
                                  const WordQuery& query) {
  const bool has_rule = has_contrast_rule(source.phonics.patterns(),
                                          query.pattern, query.without);
  const std::size_t most =
      std::max<std::size_t>(60, query.count * kReadForEach) *
      (has_rule ? kReadForContrast : 1);
  const bool only_cheapest = query.count == 1 && !query.first_set;
  const std::vector<FoundWord> words =
      Search(source, query).run(most, only_cheapest);
  return Selection(words, query).take();
}

}  // namespace sheaf
