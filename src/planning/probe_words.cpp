#include "planning/probe_words.h"

#include <algorithm>
#include <map>

#include "base/shuffle.h"
#include "phonics/carriers.h"

namespace sheaf {

namespace {

constexpr int kShortestProbeWord = 3;
constexpr int kLongestProbeWord = 9;
constexpr std::size_t kMostRead = 300;

// The words of one length that a pattern has, what a child knows first first.
struct Supply {
  PatternId pattern = 0;
  std::vector<std::string> words;
};

// What one step has to give.
struct StepSupply {
  int step = 0;
  std::vector<Supply> supplies;

  // The one to take from next: that with the most words, so that patterns and
  // lengths take turns. Null where none has enough.
  Supply* fullest(std::size_t forms) {
    const auto most = std::ranges::max_element(
        supplies, {}, [](const Supply& s) { return s.words.size(); });
    return most == supplies.end() || most->words.size() < forms ? nullptr
                                                                : &*most;
  }
};

// Letters alone: every other sign would make the count of letters uncertain.
bool is_plain(const std::string& word) {
  return std::ranges::all_of(word, [](char c) { return c >= 'a' && c <= 'z'; });
}

class ProbeMaker {
 public:
  ProbeMaker(const SearchGround& source, const ProbeQuery& query)
      : source_(source), query_(query) {
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
  void add(StepSupply& supply, PatternId pattern) {
    const Taught then = source_.taught.before(supply.step);
    const SearchGround ground{source_.phonics, source_.conventions, then,
                              source_.blocked, source_.has_picture};
    WordQuery query;
    query.pattern = pattern;
    query.letters = {kShortestProbeWord, kLongestProbeWord};
    query.leave_out = query_.leave_out;
    std::vector<FoundWord> found = candidates(ground, query, kMostRead);
    std::erase_if(found,
                  [&](const FoundWord& word) { return !can_be_asked(word); });
    // A word with an ending is asked only where the pattern is about endings.
    const auto is_base = [](const FoundWord& w) { return w.base.empty(); };
    if (std::ranges::any_of(found, is_base)) {
      std::erase_if(found,
                    [&](const FoundWord& word) { return !is_base(word); });
    }
    std::map<std::size_t, std::vector<std::string>> by_length;
    for (const FoundWord& word : found) {
      by_length[word.reading->word.size()].push_back(word.reading->word);
    }
    for (auto& [length, words] : by_length) {
      supply.supplies.push_back({pattern, std::move(words)});
    }
  }

  bool can_be_asked(const FoundWord& word) const {
    return is_plain(word.reading->word) && !word.later &&
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
    Supply* supply = step.fullest(query_.forms);
    if (supply == nullptr) return 0;
    const PatternId pattern = supply->pattern;
    // Of the words that are known soonest twice as many as it takes, so that
    // another seed has others.
    std::vector<std::string> some = supply->words;
    some.resize(std::min(some.size(), 2 * query_.forms));
    Random random(query_.seed ^ text_hash(some.front()));
    shuffle(some, random);
    some.resize(query_.forms);
    std::vector<ProbeWord> place;
    for (const std::string& word : some) {
      place.push_back({word, pattern, step.step});
      forget_family(word);
    }
    places_.push_back(std::move(place));
    return 1;
  }

  void forget_family(const std::string& word) {
    for (StepSupply& step : steps_) {
      for (Supply& supply : step.supplies) {
        std::erase_if(supply.words, [&](const std::string& other) {
          return other == word || is_same_word(other, word);
        });
      }
    }
  }

  // Mixed, so that no row of words gives a pattern away, but beginning with
  // what was taught first: nobody is to fail at once.
  ProbeForms in_order() {
    Random random(query_.seed);
    shuffle(places_, random);
    const auto first = std::ranges::min_element(
        places_, {}, [](const auto& place) { return place.front().step; });
    if (first != places_.end()) std::iter_swap(places_.begin(), first);
    ProbeForms result;
    result.forms.resize(query_.forms);
    for (const std::vector<ProbeWord>& place : places_) {
      result.letter_sequences +=
          static_cast<int>(place.front().word.size()) + 1;
      for (std::size_t form = 0; form < place.size(); ++form) {
        result.forms[form].push_back(place[form]);
      }
    }
    return result;
  }

  const SearchGround& source_;
  const ProbeQuery& query_;
  std::vector<StepSupply> steps_;
  std::vector<std::vector<ProbeWord>> places_;  // each with a word a form
};

}  // namespace

ProbeForms probe_forms(const SearchGround& source, const ProbeQuery& query) {
  return ProbeMaker(source, query).make();
}

}  // namespace sheaf
