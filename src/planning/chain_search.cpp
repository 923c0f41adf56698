#include "planning/chain_search.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <set>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "base/shuffle.h"
#include "planning/pseudo_words.h"
#include "planning/short_words.h"
#include "planning/word_search.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostChainWords = 1500;
constexpr std::size_t kBeam = 300;
constexpr std::size_t kBeamOfWord = 12;  // that end in the same word
constexpr std::size_t kMadeUp = 40;      // of each pattern
// In the tenths of `ShortWord::cost`; judgements.
constexpr int kSamePlace = 150;
constexpr int kPlaceBeforeLast = 40;
constexpr int kNoPattern = 50;
constexpr int kAddOrTake = 20;
constexpr int kFormOfIt = 150;  // cat, cats
constexpr int kMadeUpCost = 200;
constexpr int kWordMore = 25;  // what a word more may cost each of the others
constexpr int kPlaces = 3;

struct ChainEdge {
  std::size_t to = 0;
  SoundStep step;
  int cost = 0;
};

std::string chain_key(std::span<const SoundPiece> pieces, std::size_t hole) {
  std::string key;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (i == hole) {
      key += "*|";
      continue;
    }
    key += pieces[i].grapheme;
    key += '.';
    for (const Phoneme p : pieces[i].sound) {
      key += static_cast<char>(static_cast<int>(p) + 1);
    }
    key += '|';
  }
  return key;
}

struct ChainPath {
  std::vector<std::uint16_t> words;
  std::vector<SoundStep::Place> places;
  int cost = 0;
  std::uint64_t order = 0;

  bool holds(std::size_t word) const {
    return std::ranges::find(words, word) != words.end();
  }
  int kinds_of_places() const {
    return static_cast<int>(std::set(places.begin(), places.end()).size());
  }
  /// The lower the better, chains of all lengths beside each other.
  int score() const {
    const int steps = static_cast<int>(places.size());
    return cost / steps - steps * kWordMore +
           (kPlaces - kinds_of_places()) * kSamePlace / 2;
  }
};

class ChainSearch {
 public:
  ChainSearch(const AnalyzedLesson& lesson, std::vector<ShortWord> words)
      : lesson_(lesson), words_(std::move(words)) {
    edges_.resize(words_.size());
    std::unordered_map<std::string, std::vector<std::size_t>> holes;
    std::unordered_map<std::string, std::size_t> wholes;
    for (std::size_t i = 0; i < words_.size(); ++i) {
      const auto& pieces = words_[i].pieces;
      wholes.emplace(chain_key(pieces, pieces.size()), i);
      for (std::size_t at = 0; at < pieces.size(); ++at) {
        holes[chain_key(pieces, at)].push_back(i);
      }
    }
    for (const auto& [key, alike] : holes) {
      for (const std::size_t a : alike) {
        for (const std::size_t b : alike) join(a, b);
      }
    }
    for (std::size_t i = 0; i < words_.size(); ++i) {
      for (std::size_t at = 0; at < words_[i].pieces.size(); ++at) {
        auto fewer = words_[i].pieces;
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(at));
        const auto found = wholes.find(chain_key(fewer, fewer.size()));
        if (found == wholes.end()) continue;
        join(i, found->second);
        join(found->second, i);
      }
    }
  }

  std::vector<ChainWord> run(std::size_t most) {
    std::vector<ChainPath> paths;
    for (std::size_t i = 0; i < words_.size(); ++i) {
      if (!words_[i].has_pattern) continue;
      paths.push_back({{static_cast<std::uint16_t>(i)},
                       {},
                       words_[i].cost,
                       text_hash(words_[i].word(), lesson_.seed)});
    }
    std::ranges::sort(paths, {}, [](const ChainPath& path) {
      return std::pair(path.cost, path.order);
    });
    if (paths.size() > kBeam) paths.resize(kBeam);
    std::vector<ChainPath> whole;
    for (std::size_t length = 1; length <= most; ++length) {
      if (length >= kShortestChain && !paths.empty()) {
        whole.push_back(*std::ranges::min_element(paths, {}, by_score));
      }
      if (length < most) paths = longer(paths);
    }
    if (whole.empty()) return {};
    return chain_of(*std::ranges::min_element(whole, {}, by_score));
  }

 private:
  static std::pair<int, std::uint64_t> by_score(const ChainPath& path) {
    return {path.score(), path.order};
  }

  void join(std::size_t from, std::size_t to) {
    if (from == to) return;
    const auto known = std::ranges::find(edges_[from], to, &ChainEdge::to);
    if (known != edges_[from].end()) return;
    auto step = sound_step(words_[from].pieces, words_[to].pieces);
    if (!step) return;
    int cost = words_[to].cost;
    if (!words_[to].has_pattern) cost += kNoPattern;
    if (step->kind != SoundStep::Kind::change) {
      cost += kAddOrTake;
      if (is_same_word(words_[from].word(), words_[to].word())) {
        cost += kFormOfIt;
      }
    }
    edges_[from].push_back({to, std::move(*step), cost});
  }

  // A path and what may follow it: the path itself is copied if it is kept.
  struct LongerPath {
    const ChainPath* path = nullptr;
    const ChainEdge* edge = nullptr;
    int cost = 0;
    std::uint64_t order = 0;
  };

  std::vector<ChainPath> longer(const std::vector<ChainPath>& paths) const {
    std::vector<LongerPath> found;
    for (const ChainPath& path : paths) {
      const std::size_t last = path.words.back();
      for (const ChainEdge& edge : edges_[last]) {
        if (!words_[last].has_pattern && !words_[edge.to].has_pattern) continue;
        if (path.holds(edge.to)) continue;
        found.push_back({&path, &edge, path.cost + cost_after(path, edge),
                         text_hash(words_[edge.to].word(), path.order)});
      }
    }
    return best_of(found);
  }

  static int cost_after(const ChainPath& path, const ChainEdge& edge) {
    const auto place = edge.step.place();
    const auto& before = path.places;
    if (!before.empty() && before.back() == place) {
      return edge.cost + kSamePlace;
    }
    if (before.size() > 1 && before[before.size() - 2] == place) {
      return edge.cost + kPlaceBeforeLast;
    }
    return edge.cost;
  }

  // Not all of them with one end: the best beginning may lead nowhere.
  static std::vector<ChainPath> best_of(std::vector<LongerPath>& found) {
    std::ranges::sort(found, {}, [](const LongerPath& p) {
      return std::pair(p.cost, p.order);
    });
    std::unordered_map<std::size_t, std::size_t> ends;
    std::vector<ChainPath> best;
    for (const auto& [path, edge, cost, order] : found) {
      if (best.size() == kBeam) break;
      if (ends[edge->to]++ >= kBeamOfWord) continue;
      ChainPath& next = best.emplace_back(*path);
      next.words.push_back(static_cast<std::uint16_t>(edge->to));
      next.places.push_back(edge->step.place());
      next.cost = cost;
      next.order = order;
    }
    return best;
  }

  std::vector<ChainWord> chain_of(const ChainPath& path) const {
    std::vector<ChainWord> chain;
    for (std::size_t i = 0; i < path.words.size(); ++i) {
      const ShortWord& word = words_[path.words[i]];
      ChainWord& link = chain.emplace_back();
      link.word = analyzed_word(lesson_, word);
      link.made_up = word.made_up;
      if (i == 0) continue;
      link.step = *sound_step(words_[path.words[i - 1]].pieces, word.pieces);
    }
    return chain;
  }

  const AnalyzedLesson& lesson_;
  std::vector<ShortWord> words_;
  std::vector<std::vector<ChainEdge>> edges_;
};

void add_made_up(const AnalyzedLesson& lesson, const BlockList* blocked,
                 std::vector<ShortWord>& words) {
  const SearchGround ground{
      *lesson.phonics, lesson.conventions, lesson.taught, blocked, {}};
  for (const LessonPattern& pattern : lesson.patterns) {
    for (const PseudoWord& made : pseudo_words(ground, pattern.id, kMadeUp)) {
      auto reading =
          lesson.phonics->first_reading(made.word, lesson.conventions);
      ShortWord word = short_word(lesson, std::move(reading));
      if (!word.readable || !word.has_pattern) continue;
      word.made_up = true;
      word.cost = kMadeUpCost;
      words.push_back(std::move(word));
    }
  }
}

}  // namespace

std::vector<ChainWord> find_chain(const AnalyzedLesson& lesson,
                                  const BlockList* blocked, bool made_up,
                                  std::size_t most) {
  std::vector<ShortWord> words = short_words(lesson, blocked);
  std::erase_if(words, [](const ShortWord& word) { return !word.readable; });
  // The dearest of those without the pattern go first.
  if (words.size() > kMostChainWords) {
    std::ranges::stable_partition(words, &ShortWord::has_pattern);
    words.resize(kMostChainWords);
  }
  if (made_up) add_made_up(lesson, blocked, words);
  return ChainSearch(lesson, std::move(words)).run(most);
}

std::string chain_fault(std::span<const ChainLink> chain) {
  for (std::size_t i = 1; i < chain.size(); ++i) {
    if (!sound_step(chain[i - 1].pieces, chain[i].pieces)) {
      return fmt::format("word {} is not one sound from the word before it",
                         i + 1);
    }
    if (!chain[i - 1].has_pattern && !chain[i].has_pattern) {
      return fmt::format("words {} and {} have no pattern", i, i + 1);
    }
  }
  return {};
}

}  // namespace sheaf
