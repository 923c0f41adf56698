#include "planning/probe_words.h"

#include <algorithm>
#include <cstdlib>

#include "base/shuffle.h"
#include "phonics/carriers.h"

namespace sheaf {

namespace {

constexpr int kShortestProbeWord = 3;
constexpr int kLongestProbeWord = 9;
constexpr std::size_t kMostRead = 300;

// The words that a pattern has, what a child knows first first.
struct ProbeSupply {
  PatternId pattern = 0;
  std::vector<std::string> words;
};

// What one step has to give.
struct StepSupply {
  int step = 0;
  std::vector<ProbeSupply> supplies;

  // The one to take from next: that with the most words, so that patterns take
  // turns. Null where none has enough.
  ProbeSupply* fullest(std::size_t forms) {
    const auto most = std::ranges::max_element(
        supplies, {}, [](const ProbeSupply& s) { return s.words.size(); });
    return most == supplies.end() || most->words.size() < forms ? nullptr
                                                                : &*most;
  }
};

// The words at one place of all forms, and others of their kind.
struct ProbePlace {
  PatternId pattern = 0;
  int step = 0;
  std::vector<std::string> words, spare;
};

int letters_in(const std::string& word) {
  return static_cast<int>(word.size());
}

// Deals the words of each place to the forms so that all forms have as many
// letters.
class Dealer {
 public:
  Dealer(std::vector<ProbePlace>& places, std::size_t forms)
      : places_(places), forms_(forms) {}

  // False where it cannot be done.
  bool deal(Random& random) {
    if (!make_divisible()) return false;
    for (ProbePlace& place : places_) shuffle(place.words, random);
    while (improve()) {
    }
    const std::vector<int> sums = letters_of_forms();
    return std::ranges::adjacent_find(sums, std::ranges::not_equal_to{}) ==
           sums.end();
  }

 private:
  std::vector<int> letters_of_forms() const {
    std::vector<int> sums(forms_);
    for (const ProbePlace& place : places_) {
      for (std::size_t form = 0; form < forms_; ++form) {
        sums[form] += letters_in(place.words[form]);
      }
    }
    return sums;
  }

  // Trades words for others that have a letter less, or a letter more, until
  // the letters can be shared out evenly.
  bool make_divisible() {
    int all = 0;
    for (const int sum : letters_of_forms()) all += sum;
    const int count = static_cast<int>(forms_);
    const int over = all % count;
    const bool fewer = 2 * over <= count;
    for (int left = fewer ? over : count - over; left > 0; --left) {
      if (!trade(fewer ? -1 : 1)) return false;
    }
    return true;
  }

  bool trade(int change) {
    for (ProbePlace& place : places_) {
      for (std::string& spare : place.spare) {
        for (std::string& word : place.words) {
          if (letters_in(spare) != letters_in(word) + change) continue;
          std::swap(spare, word);
          return true;
        }
      }
    }
    return false;
  }

  // Swaps the words of two forms at one place where that brings the forms
  // nearer to each other.
  bool improve() {
    const std::vector<int> sums = letters_of_forms();
    for (std::size_t a = 0; a < forms_; ++a) {
      for (std::size_t b = 0; b < forms_; ++b) {
        const int apart = sums[a] - sums[b];
        if (apart <= 0) continue;
        for (ProbePlace& place : places_) {
          const int moved =
              letters_in(place.words[a]) - letters_in(place.words[b]);
          if (moved <= 0 || moved >= apart) continue;
          std::swap(place.words[a], place.words[b]);
          return true;
        }
      }
    }
    return false;
  }

  std::vector<ProbePlace>& places_;
  std::size_t forms_;
};

// Letters alone: every other sign would make the count of letters uncertain.
bool is_plain(const std::string& word) {
  return std::ranges::all_of(word, [](char c) { return c >= 'a' && c <= 'z'; });
}

class ProbeMaker {
 public:
  ProbeMaker(const SearchGround& source, const ProbeQuery& query,
             std::uint64_t seed)
      : source_(source), query_(query), seed_(seed) {
    for (int step = 0; step <= source.taught.step(); ++step) {
      StepSupply supply{.step = step, .supplies = {}};
      for (const PatternId pattern : source.taught.patterns_of(step)) {
        // A pattern that comes back later belongs to its first step.
        if (source.taught.stage(pattern) == step + 1) add(supply, pattern);
      }
      if (!supply.supplies.empty()) steps_.push_back(std::move(supply));
    }
  }

  ProbeForms make() {
    for (std::size_t left = query_.words; left > 0;) {
      const std::vector<StepSupply*> able = able_steps();
      if (able.empty()) break;
      const std::size_t take = std::min(left, able.size());
      std::size_t taken = 0;
      for (std::size_t i = 0; i < take; ++i) {
        // In the middle of each of `take` equal parts of the steps.
        taken += take_from(*able[(2 * i + 1) * able.size() / (2 * take)]);
      }
      if (taken == 0) break;
      left -= taken;
    }
    return in_order();
  }

 private:
  // Words that can be read at the step itself first, then those that take
  // something of a later one.
  void add(StepSupply& supply, PatternId pattern) {
    const Taught then = source_.taught.before(supply.step);
    std::vector<FoundWord> found = words_of(pattern, then);
    for (FoundWord& word : words_of(pattern, source_.taught)) {
      const auto same = [&](const FoundWord& other) {
        return other.reading->word == word.reading->word;
      };
      if (std::ranges::none_of(found, same)) found.push_back(std::move(word));
    }
    // A word with an ending is asked only where the pattern is about endings.
    const auto is_base = [](const FoundWord& w) { return w.base.empty(); };
    if (std::ranges::any_of(found, is_base)) {
      std::erase_if(found,
                    [&](const FoundWord& word) { return !is_base(word); });
    }
    ProbeSupply own{.pattern = pattern, .words = {}};
    for (const FoundWord& word : found) {
      own.words.push_back(word.reading->word);
    }
    if (!own.words.empty()) supply.supplies.push_back(std::move(own));
  }

  std::vector<FoundWord> words_of(PatternId pattern, const Taught& taught) {
    const SearchGround ground{source_.phonics, source_.conventions, taught,
                              source_.blocked, source_.has_picture};
    WordQuery query;
    query.pattern = pattern;
    query.letters = {kShortestProbeWord, kLongestProbeWord};
    query.leave_out = query_.leave_out;
    query.first_set = false;
    std::vector<FoundWord> found = candidates(ground, query, kMostRead);
    std::erase_if(found,
                  [&](const FoundWord& word) { return !can_be_asked(word); });
    // A vowel that its neighbour colours comes last.
    std::ranges::stable_partition(
        found, [](const FoundWord& word) { return !word.later; });
    return found;
  }

  bool can_be_asked(const FoundWord& word) const {
    return is_plain(word.reading->word) &&
           source_.phonics.sound_alikes(*word.reading, source_.conventions)
               .empty() &&
           !carrier_of(source_.phonics, *word.reading, source_.conventions)
                .empty();
  }

  std::vector<StepSupply*> able_steps() {
    std::vector<StepSupply*> able;
    for (StepSupply& step : steps_) {
      if (step.fullest(query_.forms) != nullptr) able.push_back(&step);
    }
    return able;
  }

  // One word for each form; 0 where the step has no longer enough.
  std::size_t take_from(StepSupply& step) {
    ProbeSupply* supply = step.fullest(query_.forms);
    if (supply == nullptr) return 0;
    ProbePlace place{.pattern = supply->pattern,
                     .step = step.step,
                     .words = {},
                     .spare = {}};
    std::vector<std::string> pool = of_like_length(supply->words);
    // Of the words that are known soonest twice as many as it takes, so that
    // another seed has others.
    pool.resize(std::min(pool.size(), 2 * query_.forms));
    Random random(seed_ ^ text_hash(pool.front()));
    shuffle(pool, random);
    for (const std::string& word : pool) {
      const bool free =
          std::ranges::find(supply->words, word) != supply->words.end();
      if (!free) continue;
      if (place.words.size() < query_.forms) {
        place.words.push_back(word);
        forget_family(word);
      } else {
        place.spare.push_back(word);
      }
    }
    if (place.words.size() < query_.forms) {
      // Two of one family: there is a word less than it seemed.
      return 0;
    }
    places_.push_back(std::move(place));
    return 1;
  }

  // Words of about one length, as many as there are in the narrowest range that
  // has enough for all forms.
  std::vector<std::string> of_like_length(
      const std::vector<std::string>& words) const {
    std::vector<std::string> best;
    for (int range = 1; best.size() < query_.forms; ++range) {
      for (int middle = kShortestProbeWord; middle <= kLongestProbeWord;
           ++middle) {
        std::vector<std::string> some;
        for (const std::string& word : words) {
          if (std::abs(letters_in(word) - middle) <= range) {
            some.push_back(word);
          }
        }
        if (some.size() > best.size()) best = std::move(some);
      }
    }
    return best;
  }

  void forget_family(const std::string& word) {
    for (StepSupply& step : steps_) {
      for (ProbeSupply& supply : step.supplies) {
        std::erase_if(supply.words, [&](const std::string& other) {
          return other == word || is_same_word(other, word);
        });
      }
    }
  }

  // Mixed, so that no row of words gives a pattern away, but beginning with
  // what was taught first: nobody is to fail at once.
  ProbeForms in_order() {
    Random random(seed_);
    shuffle(places_, random);
    keep_free_spares();
    // The last place is given up where the words cannot be shared out evenly.
    while (!places_.empty() && !deal(random)) places_.pop_back();
    const auto first = std::ranges::min_element(places_, {}, &ProbePlace::step);
    if (first != places_.end()) std::iter_swap(places_.begin(), first);
    ProbeForms result;
    result.forms.resize(query_.forms);
    for (const ProbePlace& place : places_) {
      result.letter_sequences += letters_in(place.words.front()) + 1;
      for (std::size_t form = 0; form < query_.forms; ++form) {
        result.forms[form].push_back(
            {place.words[form], place.pattern, place.step});
      }
    }
    return result;
  }

  // A word that was no longer needed at its place may have come to another.
  void keep_free_spares() {
    std::vector<std::string> taken;
    for (const ProbePlace& place : places_) {
      taken.insert(taken.end(), place.words.begin(), place.words.end());
    }
    for (ProbePlace& place : places_) {
      std::erase_if(place.spare, [&](const std::string& spare) {
        return std::ranges::any_of(taken, [&](const std::string& word) {
          return word == spare || is_same_word(word, spare);
        });
      });
      taken.insert(taken.end(), place.spare.begin(), place.spare.end());
    }
  }

  bool deal(Random& random) {
    constexpr int kTries = 50;
    Dealer dealer(places_, query_.forms);
    for (int i = 0; i < kTries; ++i) {
      if (dealer.deal(random)) return true;
    }
    return false;
  }

  const SearchGround& source_;
  const ProbeQuery& query_;
  std::uint64_t seed_;
  std::vector<StepSupply> steps_;
  std::vector<ProbePlace> places_;
};

}  // namespace

ProbeForms probe_forms(const SearchGround& source, const ProbeQuery& query) {
  // Which words meet at which place is left to chance, and chance may leave too
  // few for the last places.
  constexpr std::uint64_t kTries = 10;
  ProbeForms best;
  for (std::uint64_t i = 0; i < kTries; ++i) {
    ProbeForms tried =
        ProbeMaker(source, query, query.seed + (i << 32U)).make();
    const bool longer = best.forms.empty() ||
                        tried.forms.front().size() > best.forms.front().size();
    if (longer) best = std::move(tried);
    if (best.forms.front().size() == query.words) break;
  }
  return best;
}

}  // namespace sheaf
