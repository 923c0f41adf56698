#include "lexicon/training.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>

namespace sheaf {
namespace {

constexpr int kRounds = 4;

// Costs are integers so that every machine builds the same file.
std::uint16_t cost_of(double share) {
  return static_cast<std::uint16_t>(
      std::min(65535.0, std::round(-std::log(share) * 256)));
}

std::vector<std::int64_t> count_uses(
    std::span<const Correspondence> correspondences,
    std::span<const TrainingWord> words) {
  const Inventory inventory(correspondences);
  std::vector<std::int64_t> uses(correspondences.size());
  for (const TrainingWord& word : words) {
    for (const Segment& s : align(inventory, word.task())) ++uses[s.id];
  }
  return uses;
}

}  // namespace

void train(std::vector<Correspondence>& correspondences,
           std::span<const TrainingWord> words) {
  // What only other accents have is in none of these words, and dearest.
  std::vector<Correspondence> of_accents;
  for (const Correspondence& c : correspondences) {
    if (c.by_hand != Correspondence::kOfAccents) continue;
    of_accents.push_back(c);
    of_accents.back().cost = std::numeric_limits<std::uint16_t>::max();
  }
  std::erase_if(correspondences, [](const Correspondence& c) {
    return c.by_hand == Correspondence::kOfAccents;
  });
  // A first guess: what is taught is likelier than what is not, and more
  // letters in a grapheme make it less likely.
  for (Correspondence& c : correspondences) {
    c.cost =
        static_cast<std::uint16_t>(1000 + (c.rare ? 800 : 0) + 300 * c.length);
  }
  std::vector<std::int64_t> uses;
  for (int round = 0; round < kRounds; ++round) {
    uses = count_uses(correspondences, words);
    const double all =
        static_cast<double>(std::accumulate(uses.begin(), uses.end(), 0LL)) +
        0.5 * static_cast<double>(uses.size());
    for (std::size_t i = 0; i < uses.size(); ++i) {
      correspondences[i].cost =
          cost_of((static_cast<double>(uses[i]) + 0.5) / all);
    }
  }
  std::vector<std::size_t> order(uses.size());
  std::iota(order.begin(), order.end(), 0);
  std::ranges::stable_sort(
      order, [&](std::size_t a, std::size_t b) { return uses[a] > uses[b]; });
  std::vector<Correspondence> sorted;
  for (const std::size_t i : order) sorted.push_back(correspondences[i]);
  sorted.insert(sorted.end(), of_accents.begin(), of_accents.end());
  correspondences = std::move(sorted);
}

std::vector<GuessStep> count_steps(std::span<const WordRecord> records) {
  using Pair = std::pair<std::uint16_t, std::uint16_t>;
  std::map<std::pair<Pair, std::uint16_t>, int> triples;
  std::map<Pair, int> pairs;       // behind two steps
  std::map<Pair, int> steps_from;  // behind one: previous and id
  std::map<std::uint16_t, int> singles;
  for (const WordRecord& record : records) {
    if (record.name) continue;
    std::uint16_t before = kWordEdge, last = kWordEdge;
    const auto step = [&](std::uint16_t id) {
      ++triples[{{before, last}, id}];
      ++pairs[{before, last}];
      ++steps_from[{last, id}];
      ++singles[last];
      before = last;
      last = id;
    };
    int split_e = -1;
    for (const Segment& s : record.segments) {
      if (split_e >= 0 && split_e < s.begin) {
        step(kSplitStep);
        split_e = -1;
      }
      step(s.id);
      if (s.split_e >= 0) split_e = static_cast<std::uint8_t>(s.split_e);
    }
    if (split_e >= 0) step(kSplitStep);
    step(kWordEdge);
  }
  // What is seen once or twice in threes says little; twos back it up.
  constexpr int kFewestTriples = 2;
  constexpr double kDiscount = 0.5;
  std::vector<GuessStep> steps;
  for (const auto& [key, count] : triples) {
    if (count < kFewestTriples) continue;
    steps.push_back({key.first.first, key.first.second, key.second,
                     cost_of((count - kDiscount) / pairs[key.first])});
  }
  for (const auto& [key, count] : steps_from) {
    steps.push_back({kAnyStep, key.first, key.second,
                     cost_of((count - kDiscount) / singles[key.first])});
  }
  std::ranges::sort(
      steps, [](const GuessStep& a, const GuessStep& b) { return a < b; });
  return steps;
}

}  // namespace sheaf
