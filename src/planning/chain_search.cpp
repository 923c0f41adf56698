#include "planning/chain_search.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <functional>
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
  std::uint16_t to = 0;
  BareStep step;
  int cost = 0;
};

// The pieces of a word as numbers: two words are compared at once.
constexpr std::size_t kMostPieces = 8;
using ChainKey = std::array<std::uint16_t, kMostPieces>;
constexpr std::uint16_t kHole = 1;
constexpr std::uint16_t kFirstPiece = 2;

class PieceNumbers {
 public:
  std::uint16_t of(const SoundPiece& piece) {
    std::string key = piece.grapheme;
    key += static_cast<char>('0' + piece.boxes);
    for (const Phoneme p : piece.sound) {
      key += static_cast<char>(static_cast<int>(p) + 1);
    }
    const auto next = static_cast<std::uint16_t>(kFirstPiece + numbers_.size());
    return numbers_.try_emplace(std::move(key), next).first->second;
  }

 private:
  std::unordered_map<std::string, std::uint16_t> numbers_;
};

ChainKey without_piece(const ChainKey& word, std::size_t at) {
  ChainKey fewer{};
  std::copy(word.begin(), word.begin() + static_cast<std::ptrdiff_t>(at),
            fewer.begin());
  std::copy(word.begin() + static_cast<std::ptrdiff_t>(at) + 1, word.end(),
            fewer.begin() + static_cast<std::ptrdiff_t>(at));
  return fewer;
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
    unsigned kinds = 0;
    for (const auto place : places) kinds |= 1U << static_cast<int>(place);
    return std::popcount(kinds);
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
      : lesson_(lesson), words_(std::move(words)), edges_(words_.size()) {
    PieceNumbers numbers;
    for (const ShortWord& word : words_) {
      ChainKey& key = keys_.emplace_back();
      const std::size_t size = std::min(word.pieces.size(), kMostPieces);
      for (std::size_t i = 0; i < size; ++i)
        key[i] = numbers.of(word.pieces[i]);
    }
    join_changed();
    join_shorter();
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

  using KeyedWord = std::pair<ChainKey, std::uint16_t>;

  // Words that are alike but for one piece: they share a key with a hole.
  void join_changed() {
    std::vector<KeyedWord> holes;
    for (std::size_t i = 0; i < words_.size(); ++i) {
      for (std::size_t at = 0; at < pieces_in(i); ++at) {
        KeyedWord& one =
            holes.emplace_back(keys_[i], static_cast<std::uint16_t>(i));
        one.first[at] = kHole;
      }
    }
    std::ranges::sort(holes);
    for (auto begin = holes.begin(); begin != holes.end();) {
      const auto end = std::find_if(begin, holes.end(), [&](const auto& one) {
        return one.first != begin->first;
      });
      for (auto a = begin; a != end; ++a) {
        for (auto b = begin; b != end; ++b) join(a->second, b->second);
      }
      begin = end;
    }
  }

  // Words that another is with a piece left out.
  void join_shorter() {
    std::vector<KeyedWord> wholes;
    for (std::size_t i = 0; i < words_.size(); ++i) {
      wholes.emplace_back(keys_[i], static_cast<std::uint16_t>(i));
    }
    std::ranges::sort(wholes);
    for (std::size_t i = 0; i < words_.size(); ++i) {
      ChainKey before{};
      for (std::size_t at = 0; at < pieces_in(i); ++at) {
        const ChainKey fewer = without_piece(keys_[i], at);
        if (fewer == before) continue;  // the other s of miss
        before = fewer;
        const auto found =
            std::ranges::lower_bound(wholes, fewer, {}, &KeyedWord::first);
        if (found == wholes.end() || found->first != fewer) continue;
        join(i, found->second);
        join(found->second, i);
      }
    }
  }

  std::size_t pieces_in(std::size_t word) const {
    return std::min(words_[word].pieces.size(), kMostPieces);
  }

  void join(std::size_t from, std::size_t to) {
    if (from == to) return;
    const auto step = bare_step(words_[from].pieces, words_[to].pieces);
    if (!step) return;
    int cost = words_[to].cost;
    if (!words_[to].has_pattern) cost += kNoPattern;
    if (step->kind != SoundStep::Kind::change) {
      cost += kAddOrTake;
      if (is_same_word(words_[from].word(), words_[to].word())) {
        cost += kFormOfIt;
      }
    }
    edges_[from].push_back({static_cast<std::uint16_t>(to), *step, cost});
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

  // Not all of them with one end: the best beginning may lead nowhere. Most of
  // what was found is never looked at, so it is a heap and not put in order.
  std::vector<ChainPath> best_of(std::vector<LongerPath>& found) const {
    const auto rank = [](const LongerPath& path) {
      return std::pair(path.cost, path.order);
    };
    std::ranges::make_heap(found, std::ranges::greater{}, rank);
    std::vector<std::size_t> ends(words_.size());
    std::vector<ChainPath> best;
    while (!found.empty() && best.size() < kBeam) {
      std::ranges::pop_heap(found, std::ranges::greater{}, rank);
      const auto [path, edge, cost, order] = found.back();
      found.pop_back();
      if (ends[edge->to]++ >= kBeamOfWord) continue;
      ChainPath& next = best.emplace_back(*path);
      next.words.push_back(edge->to);
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
  std::vector<ChainKey> keys_;
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
  std::vector<ShortWord> words = readable_short_words(lesson, blocked);
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
