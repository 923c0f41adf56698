#include "planning/contrast.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "phonics/alike.h"
#include "phonics/word_facts.h"

namespace sheaf {

namespace {

// How many words of each pattern are looked at.
constexpr std::size_t kMostWords = 500;
// In tenths of what one more sound costs, as in word_search.cpp; judgements.
constexpr int kOtherRest = 40;  // cheese and chess: more differs on paper
constexpr int kOtherPlaceInPair = 60;
constexpr int kLaterInPair = 100;
constexpr int kAgain = 15;  // of the same beginning or end as a pair before

using Sounds = std::vector<Phoneme>;

// A word as its sounds, with those that spell the pattern.
struct Spoken {
  const FoundWord* word = nullptr;
  Sounds sounds;
  std::vector<bool> of_pattern;
  std::string rest;  // the graphemes that do not
};

Spoken spoken(const FoundWord& word, PatternId pattern) {
  Spoken result{.word = &word, .sounds = listed_sounds(word.reading->units)};
  const PatternPlace* place = word.reading->find(pattern);
  for (std::size_t i = 0; i < word.reading->units.size(); ++i) {
    const Unit& unit = word.reading->units[i];
    const bool own = std::ranges::find(place->units, i) != place->units.end();
    result.of_pattern.insert(result.of_pattern.end(), unit.listed.size(), own);
    if (!own) result.rest += unit.grapheme + " ";
  }
  return result;
}

struct Candidate {
  int cost = 0;
  const FoundWord* first = nullptr;
  const FoundWord* second = nullptr;
  std::string onset, rime;
};

class PairFinder {
 public:
  PairFinder(const SearchGround& source, const WordQuery& query,
             PatternId other)
      : first_(query.pattern), second_(other) {
    const PatternCatalogue& patterns = source.phonics.patterns();
    // A blend, a shape: what they teach is no grapheme.
    of_shape_ =
        patterns[first_].teaches.empty() || patterns[second_].teaches.empty();
    WordQuery own = query;
    own.without = {second_};
    firsts_ = candidates(source, own, kMostWords);
    own.pattern = second_;
    own.without = {first_};
    seconds_ = candidates(source, own, kMostWords);
  }

  std::vector<SoundPair> run(std::size_t count) {
    pair_up();
    std::ranges::sort(found_, [](const Candidate& a, const Candidate& b) {
      return std::tie(a.cost, a.first->reading->word, a.second->reading->word) <
             std::tie(b.cost, b.first->reading->word, b.second->reading->word);
    });
    std::vector<SoundPair> pairs;
    std::set<const FoundWord*> used;
    std::map<std::string, int> onsets, rimes;
    while (pairs.size() < count) {
      const Candidate* best = nullptr;
      int best_cost = 0;
      for (const Candidate& c : found_) {
        if (used.contains(c.first) || used.contains(c.second)) continue;
        const int cost = c.cost + (onsets[c.onset] + rimes[c.rime]) * kAgain;
        if (best != nullptr && cost >= best_cost) continue;
        best = &c;
        best_cost = cost;
      }
      if (best == nullptr) break;
      used.insert({best->first, best->second});
      ++onsets[best->onset];
      ++rimes[best->rime];
      pairs.push_back(
          {best->first->reading->word, best->second->reading->word});
    }
    return pairs;
  }

 private:
  // Words of the first pattern by what is left of their sounds without one.
  void pair_up() {
    std::vector<Spoken> first, second;
    for (const FoundWord& w : firsts_) first.push_back(spoken(w, first_));
    for (const FoundWord& w : seconds_) second.push_back(spoken(w, second_));
    std::map<std::pair<std::size_t, Sounds>, std::vector<const Spoken*>> holes;
    std::map<Sounds, std::vector<const Spoken*>> wholes;
    for (const Spoken& s : first) {
      wholes[s.sounds].push_back(&s);
      for (std::size_t i = 0; i < s.sounds.size(); ++i) {
        holes[{i, without(s.sounds, i)}].push_back(&s);
      }
    }
    for (const Spoken& s : second) {
      for (std::size_t i = 0; i < s.sounds.size(); ++i) {
        const Sounds rest = without(s.sounds, i);
        if (const auto found = holes.find({i, rest}); found != holes.end()) {
          for (const Spoken* other : found->second) {
            if (differ_at(*other, s, i)) add(*other, s);
          }
        }
        if (!of_shape_) continue;
        if (const auto found = wholes.find(rest); found != wholes.end()) {
          for (const Spoken* other : found->second) add(*other, s);
        }
      }
      if (!of_shape_) continue;
      for (std::size_t i = 0; i <= s.sounds.size(); ++i) {
        const auto found = holes.find({i, s.sounds});
        if (found == holes.end()) continue;
        for (const Spoken* other : found->second) add(*other, s);
      }
    }
  }

  static Sounds without(Sounds sounds, std::size_t at) {
    sounds.erase(sounds.begin() + static_cast<std::ptrdiff_t>(at));
    return sounds;
  }

  bool differ_at(const Spoken& a, const Spoken& b, std::size_t at) const {
    return !same_sound(a.sounds[at], b.sounds[at]) &&
           (of_shape_ || (a.of_pattern[at] && b.of_pattern[at]));
  }

  void add(const Spoken& a, const Spoken& b) {
    Candidate c{
        .cost = a.word->cost + b.word->cost, .first = a.word, .second = b.word};
    if (a.word->later || b.word->later) c.cost += kLaterInPair;
    if (!of_shape_ && a.rest != b.rest) c.cost += kOtherRest;
    if (!of_shape_ && a.word->place != b.word->place)
      c.cost += kOtherPlaceInPair;
    bool begun = false;
    for (const Unit& unit : a.word->reading->units) {
      begun = begun || has_vowel(unit);
      (begun ? c.rime : c.onset) += unit.grapheme + " ";
    }
    found_.push_back(std::move(c));
  }

  PatternId first_, second_;
  bool of_shape_ = false;
  std::vector<FoundWord> firsts_, seconds_;
  std::vector<Candidate> found_;
};

}  // namespace

std::vector<SoundPair> contrast_pairs(const SearchGround& source,
                                      const WordQuery& query, PatternId other) {
  if (other == query.pattern) return {};
  return PairFinder(source, query, other).run(query.count);
}

std::vector<std::string> words_of(const std::vector<SoundPair>& pairs) {
  std::vector<std::string> words;
  for (const SoundPair& pair : pairs) {
    words.push_back(pair.first);
    words.push_back(pair.second);
  }
  return words;
}

}  // namespace sheaf
