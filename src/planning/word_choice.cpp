#include "planning/word_choice.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string_view>

#include "phonics/word_facts.h"

namespace sheaf {

namespace {

using Place = PatternWord::Place;

// In tenths of what one more sound costs, as in word_search.cpp; judgements.
constexpr int kAlike = 8;
constexpr int kSameRime = 12;
constexpr int kSameBase = 12;
constexpr int kSameEnding = 4;
constexpr int kLater = 200;
// What a word costs more that has the pattern elsewhere than the others of a
// first set. A set keeps to one place where that has so many words for each
// wanted; else it would starve: this, that and those leave no room for mother.
constexpr int kOtherPlace = 60;
constexpr std::size_t kEnoughForEach = 2;
// Otherwise words of a place that has half of the set already cost as much.
constexpr int kParts = 2;
constexpr int kNoWord = 150;  // a place that has too few

struct Likeness {
  std::string onset, rime;
};

// Letters and marks of the first consonants, and all from the first vowel on;
// but for the graphemes of the pattern, in which all words are alike.
Likeness likeness_of(const Reading& reading, const PatternPlace* pattern) {
  Likeness likeness;
  bool begun = false;
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    const Unit& unit = reading.units[i];
    begun = begun || has_vowel(unit);
    if (pattern != nullptr &&
        std::ranges::find(pattern->units, i) != pattern->units.end()) {
      continue;
    }
    if (begun) {
      likeness.rime += unit.grapheme + " ";
    } else {
      likeness.onset += unit.grapheme;
    }
  }
  return likeness;
}

// The place where the best words cost least together.
Place best_place(const std::vector<FoundWord>& words, std::size_t count) {
  Place best = Place::middle;
  long best_cost = -1;
  for (const Place place : {Place::first, Place::middle, Place::last}) {
    long cost = 0;
    std::size_t found = 0;
    for (const FoundWord& w : words) {
      if (w.place != place || found == count) continue;
      cost += std::min(w.cost + (w.later ? kLater : 0), kNoWord);
      ++found;
    }
    cost += static_cast<long>(count - found) * kNoWord;
    if (best_cost < 0 || cost < best_cost) {
      best = place;
      best_cost = cost;
    }
  }
  return best;
}

class SetChoice {
 public:
  SetChoice(const std::vector<FoundWord>& words, const WordQuery& query,
            const Pattern& pattern)
      : words_(words),
        query_(query),
        place_(best_place(words, query.count)),
        keeps_place_(query.first_set && has_enough(words, query.count)),
        compares_(pattern.id.starts_with("er_est")) {
    for (const FoundWord& word : words) {
      likeness_.push_back(likeness_of(
          *word.reading,
          pattern.of_units ? word.reading->find(query.pattern) : nullptr));
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
    for (const std::string& word : query_.prefer) {
      const auto found = std::ranges::find_if(words_, [&](const FoundWord& w) {
        return w.reading->word == word && !repeats(w);
      });
      if (found == words_.end() || chosen_.size() == query_.count) continue;
      const auto i = static_cast<std::size_t>(found - words_.begin());
      taken[i] = true;
      add(i);
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
  bool has_enough(const std::vector<FoundWord>& words,
                  std::size_t count) const {
    const auto there = std::ranges::count_if(words, [&](const FoundWord& w) {
      return w.place == place_ && !w.later && !w.older;
    });
    return static_cast<std::size_t>(there) >= count * kEnoughForEach;
  }

  bool repeats(const FoundWord& word) const {
    return std::ranges::any_of(chosen_, [&](const FoundWord& other) {
      if (other.reading->word == word.reading->word) return true;
      if (!word.base.empty() && word.base == other.base) {
        // Bigger and biggest are what the pattern is about.
        return !compares_ || word.ending == other.ending;
      }
      return other.base == word.reading->word ||
             (!word.base.empty() && word.base == other.reading->word);
    });
  }

  int cost_now(std::size_t i) const {
    const FoundWord& word = words_[i];
    int cost = word.cost;
    if (query_.first_set && word.later) cost += kLater;
    if (!keeps_place_) {
      cost += times(places_, word.place) * kAlike / 2;
      const auto parts = times(places_, word.place) * kParts;
      if (static_cast<std::size_t>(parts) >= query_.count) cost += kOtherPlace;
    } else if (word.place != place_) {
      cost += kOtherPlace;
    }
    const Likeness& own = likeness_[i];
    if (!own.onset.empty()) cost += times(onsets_, own.onset) * kAlike;
    if (!own.rime.empty()) cost += times(rimes_, own.rime) * kSameRime;
    if (compares_) {
      cost += times(endings_, word.ending) * kSameEnding;
      cost += times(bases_, word.base) * kSameBase;
    }
    return cost;
  }

  template <typename Map, typename Key>
  static int times(const Map& map, const Key& key) {
    const auto found = map.find(key);
    return found == map.end() ? 0 : found->second;
  }

  void add(std::size_t i) {
    ++onsets_[likeness_[i].onset];
    ++rimes_[likeness_[i].rime];
    ++places_[words_[i].place];
    ++endings_[words_[i].ending];
    ++bases_[words_[i].base];
    chosen_.push_back(words_[i]);
  }

  const std::vector<FoundWord>& words_;
  const WordQuery& query_;
  Place place_;
  bool keeps_place_;
  bool compares_;
  std::vector<Likeness> likeness_;  // of each word
  std::vector<FoundWord> chosen_;
  std::map<std::string, int> onsets_, rimes_, bases_;
  std::map<Place, int> places_;
  std::map<Ending, int> endings_;
};

}  // namespace

std::vector<FoundWord> choose_words(const std::vector<FoundWord>& words,
                                    const WordQuery& query,
                                    const Pattern& pattern) {
  return SetChoice(words, query, pattern).take();
}

}  // namespace sheaf
