#include "planning/word_search.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "base/nearest.h"
#include "phonics/endings.h"
#include "phonics/word_facts.h"
#include "planning/word_choice.h"

namespace sheaf {

namespace {

// Costs, in tenths of what one more sound costs. How they weigh against each
// other is a judgement, made by reading the first twenty words of every
// pattern.
constexpr int kSound = 10;
constexpr int kSyllable = 20;
constexpr int kNotFirst = 50;   // an everyday word, but none of the first list
constexpr int kInSecond = 6;    // one of them in SCOWL 20
constexpr int kInLarger = 15;   // one of them in larger lists only
constexpr int kOlder = 500;     // no everyday word, SCOWL 10
constexpr int kThirdList = 25;  // no everyday word, SCOWL 20
constexpr int kHeldBack = 300;
constexpr int kExtraLetter = 12;  // a sound that takes more than one letter
constexpr int kNoPicture = 15;
constexpr int kTwice = 25;
constexpr int kTwin = 30;      // said like a word that is known sooner
constexpr int kReadings = 15;  // said in two ways, both with the pattern: use
// An ending, a prefix or a second word where the pattern is not about it.
constexpr int kEnding = 60;
constexpr int kPrefix = 60;
constexpr int kCompound = 30;
constexpr int kStrangeBase = 40;  // an ending on what is no everyday word
constexpr int kIrregular = 40;
// A weak vowel cannot be sounded out from its letter (the e of toilet). Where
// words of one beat are enough for a lesson, ten and four more to dictate, such
// a word comes behind them: it costs more than a word with the pattern in
// another place than the rest (oil for coin).
constexpr int kWeakVowel = 90;
constexpr std::size_t kEnoughOfOneBeat = 14;
// In a contrast: silent about its rule; twice as much for an exception.
constexpr int kUnfit = 1000;

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
  if (!word.info.everyday) {
    cost += kOlder + (small ? 0 : kThirdList);
  } else if (!word.info.first) {
    cost += kNotFirst + (small ? 0 : larger ? kInSecond : kInLarger);
  }
  if (word.twice) cost += kTwice;
  if (word.twin) cost += kTwin;
  if (word.readings) cost += kReadings;
  return cost;
}

// Spellings that American English has otherwise: the sounds and boxes are
// American by default, and a teacher's own list may hold any of them.
bool is_british(const Phonics& phonics, const std::string& word) {
  constexpr std::array<std::string_view, 13> kAlone = {
      "tyre",    "tyres",  "draught", "draughts", "dreamt", "grey", "yoghurt",
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

// The e of toilet, the a of about; not the er of sister, which has a spelling
// of its own.
bool is_weak_vowel(const Unit& unit) {
  return unit.listed.size() == 1 && unit.listed.front() == Phoneme::ax;
}

// The s of is, the c of city, the g of gem.
bool is_second_sound(const Unit& unit) {
  const Phoneme said = unit.listed.front();
  return (unit.grapheme == "s" && said == Phoneme::z) ||
         (unit.grapheme == "c" && said == Phoneme::s) ||
         (unit.grapheme == "g" && said == Phoneme::jh);
}

// No ending changes more than the last two letters: knife, knives.
constexpr std::size_t kChangedByEnding = 2;
constexpr std::size_t kShortestBase = 3;

bool may_be_base(std::string_view base, std::string_view word) {
  return base.size() >= kShortestBase &&
         word.starts_with(base.substr(0, base.size() - kChangedByEnding));
}

// What a word may be with an ending of.
std::vector<std::string> bases_of(std::string_view word) {
  constexpr std::array kEndings = {Ending::s,   Ending::es,        Ending::ed,
                                   Ending::ing, Ending::er,        Ending::y,
                                   Ending::ly,  Ending::possessive};
  std::vector<std::string> bases;
  for (const Ending ending : kEndings) {
    for (const EndingAnalysis& analysis : possible_bases(word, ending)) {
      bases.push_back(analysis.base);
    }
  }
  return bases;
}

class Search {
 public:
  Search(const SearchGround& source, const WordQuery& query)
      : source_(source),
        query_(query),
        pattern_(source.phonics.patterns()[query.pattern]),
        of_prefix_(pattern_.id.starts_with("prefix_")),
        of_ending_(of_prefix_ || is_about_endings(pattern_)) {}

  // In order of cost, each read in full; stops after `most`. Where only the
  // cheapest is wanted, it stops as soon as no other can cost less: reading in
  // full only adds to a cost. For a lesson, words with a weak vowel come
  // behind.
  std::vector<FoundWord> run(std::size_t most, bool for_lesson = false,
                             bool only_cheapest = false) {
    struct Ranked {
      int later, cost;
      bool held_back, preferred;
      const PatternWord* word;
    };
    std::vector<Ranked> ranked;
    for (const PatternWord& w :
         source_.phonics.pattern_words(query_.pattern, source_.conventions)) {
      if (!fits(w)) continue;
      const bool held_back = is_held_back(w);
      if ((held_back || !w.info.everyday) && !query_.older) continue;
      // Those that are preferred are among the words that are read.
      const bool preferred =
          std::ranges::find(query_.prefer, w.word) != query_.prefer.end();
      ranked.push_back({w.later && !preferred ? 1 : 0,
                        rough_cost(w) + (held_back ? kHeldBack : 0), held_back,
                        preferred, &w});
    }
    std::ranges::sort(ranked, [](const Ranked& a, const Ranked& b) {
      if (a.preferred != b.preferred) return a.preferred;
      if (a.later != b.later) return a.later < b.later;
      if (a.cost != b.cost) return a.cost < b.cost;
      return a.word->word < b.word->word;
    });
    std::vector<FoundWord> found;
    std::size_t short_left_out = 0;
    for (const Ranked& r : ranked) {
      if (found.size() >= most) break;
      if (r.word->syllables == 1 && r.later == 0 && !r.held_back &&
          query_.leave_out.contains(r.word->word)) {
        ++short_left_out;
      }
      const auto costs_no_more = [&](const FoundWord& w) {
        return w.cost <= r.cost;
      };
      if (only_cheapest && std::ranges::any_of(found, costs_no_more)) break;
      read(*r.word, r.cost, r.held_back || !r.word->info.everyday, found);
    }
    if (for_lesson) put_weak_vowels_behind(found, short_left_out);
    std::ranges::stable_sort(found, [](const FoundWord& a, const FoundWord& b) {
      const bool a_breaks = a.fit == ContrastFit::breaks;
      const bool b_breaks = b.fit == ContrastFit::breaks;
      if (a_breaks != b_breaks) return b_breaks;
      return a.later != b.later ? a.later < b.later : a.cost < b.cost;
    });
    return found;
  }

 private:
  static bool is_about_endings(const Pattern& pattern) {
    constexpr std::array<std::string_view, 10> kEndings = {
        "ed_",     "ing",     "er_est", "ly",       "ful_less_ness",
        "plural_", "suffix_", "y_d",    "y_ending", "es_yi"};
    return std::ranges::any_of(kEndings,
                               [&](std::string_view part) {
                                 return pattern.id.starts_with(part);
                               }) ||
           pattern.id == "possessive" || pattern.id == "contraction";
  }

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

  // What would show the pattern badly, however well the word is known.
  bool is_held_back(const PatternWord& word) const {
    return word.unsure || word.weak || (word.affix && !of_ending_);
  }

  // Whether `is_same_word` holds of any of the list, which may be that of all
  // words of a year.
  bool is_left_out(const std::string& word) const {
    const auto& all = query_.leave_out;
    if (all.empty()) return false;
    if (all.contains(word)) return true;
    for (const std::string& base : bases_of(word)) {
      if (base.size() <= word.size() && may_be_base(base, word) &&
          all.contains(base)) {
        return true;
      }
    }
    if (word.size() < kShortestBase) return false;
    const std::string begin = word.substr(0, word.size() - kChangedByEnding);
    for (auto other = all.lower_bound(begin);
         other != all.end() && other->starts_with(begin); ++other) {
      if (other->size() > word.size() && is_same_word(word, *other)) {
        return true;
      }
    }
    return false;
  }

  // Where words of one beat are enough, without those that only an ending makes
  // show the pattern (hopped). Those that are left out are counted, too: they
  // are the ten to which four are looked for.
  void put_weak_vowels_behind(std::vector<FoundWord>& found,
                              std::size_t short_left_out) const {
    const auto short_ones =
        std::ranges::count_if(found, [](const FoundWord& w) {
          return w.reading->syllables() == 1 && w.base.empty() && !w.later &&
                 !w.older && w.fit != ContrastFit::breaks;
        });
    if (static_cast<std::size_t>(short_ones) + short_left_out <
        kEnoughOfOneBeat) {
      return;
    }
    for (FoundWord& word : found) {
      const auto& own = word.reading->find(query_.pattern)->units;
      for (std::size_t i = 0; i < word.reading->units.size(); ++i) {
        const bool of_pattern =
            pattern_.of_units && std::ranges::find(own, i) != own.end();
        if (!of_pattern && is_weak_vowel(word.reading->units[i])) {
          word.cost += kWeakVowel;
        }
      }
    }
  }

  // Looked at last: it takes longer than the rest.
  bool is_suitable(const PatternWord& listed) const {
    const std::string& word = listed.word;
    return !listed.info.british && !is_british(source_.phonics, word) &&
           !BlockList::shipped().blocks(word) &&
           (source_.blocked == nullptr || !source_.blocked->blocks(word));
  }

  void read(const PatternWord& word, int cost, bool older,
            std::vector<FoundWord>& found) {
    const bool picture = source_.has_picture && source_.has_picture(word.word);
    if (query_.pictures_only && !picture) return;
    if (is_left_out(word.word)) return;
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
    if (!is_suitable(word)) return;
    const ContrastFit fit =
        source_.phonics.fit_of(reading, query_.pattern, query_.without);
    cost += reading_cost(reading, *place) + static_cast<int>(fit) * kUnfit;
    if (!picture) cost += kNoPicture;
    FoundWord result{std::move(whole),
                     word.info,
                     word.place,
                     word.later,
                     picture,
                     older,
                     fit,
                     cost,
                     {},
                     Ending::none};
    if (!add_parts(result)) return;
    found.push_back(std::move(result));
  }

  // What the word is made of, and what that costs. False where a part of it
  // would do as well: scare for scared, play for replay.
  bool add_parts(FoundWord& word) const {
    const WordFacts facts =
        find_facts(*word.reading, map_letters(word.reading->word),
                   source_.phonics.lexicon());
    if (!facts.endings.empty()) {
      word.base = facts.endings.back().analysis.base;
      word.ending = facts.endings.front().analysis.ending;
      if (!of_ending_ && would_do(word.base)) return false;
      const auto more = static_cast<int>(facts.endings.size());
      const bool wanted = of_ending_ && !of_prefix_;
      word.cost += (wanted ? more - 1 : more) * kEnding;
      const auto base = source_.phonics.info(word.base);
      if (wanted && !(base && base->everyday)) word.cost += kStrangeBase;
    }
    if (!facts.prefix.empty() && !of_prefix_) {
      if (would_do(facts.letters.substr(facts.prefix.size()))) return false;
      word.cost += kPrefix;
    }
    if (facts.compound_at > 0 && pattern_.id != "compound") {
      word.cost += kCompound;
    }
    return true;
  }

  bool would_do(const std::string& base) const {
    if (query_.older) return false;
    const auto info = source_.phonics.info(base);
    return info && info->everyday &&
           source_.phonics.first_reading(base, source_.conventions)
                   ->find(query_.pattern) != nullptr;
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
      const bool plain =
          has_vowel(unit) ? is_plain_short_vowel(unit)
                          : unit.grapheme.size() == 1 && !is_second_sound(unit);
      if (!plain) cost += kExtraLetter;
    }
    return cost;
  }

  const SearchGround& source_;
  const WordQuery& query_;
  const Pattern& pattern_;
  bool of_prefix_;
  bool of_ending_;
};

}  // namespace

bool is_same_word(std::string_view a, std::string_view b) {
  if (a == b) return true;
  if (a.size() > b.size()) std::swap(a, b);
  if (!may_be_base(a, b)) return false;
  const std::vector<std::string> bases = bases_of(b);
  return std::ranges::find(bases, a) != bases.end();
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
  return choose_words(Search(source, query).run(most, true, only_cheapest),
                      query, source.phonics.patterns()[query.pattern]);
}

std::size_t good_words(const SearchGround& source, const WordQuery& query,
                       std::size_t most) {
  WordQuery good = query;
  good.older = false;
  good.count = most;
  return find_words(source, good).size();
}

}  // namespace sheaf
