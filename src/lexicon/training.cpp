#include "lexicon/training.h"

#include <algorithm>
#include <cmath>
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
  correspondences = std::move(sorted);
}

std::vector<GuessStep> count_steps(std::span<const WordRecord> records) {
  std::map<std::pair<std::uint16_t, std::uint16_t>, int> pairs;
  std::map<std::uint16_t, int> firsts;
  for (const WordRecord& record : records) {
    if (record.name) continue;
    std::uint16_t last = kWordEdge;
    const auto step = [&](std::uint16_t id) {
      ++pairs[{last, id}];
      ++firsts[last];
      last = id;
    };
    for (const Segment& s : record.segments) step(s.id);
    step(kWordEdge);
  }
  constexpr double kDiscount = 0.5;
  std::vector<GuessStep> steps;
  for (const auto& [pair, count] : pairs) {
    steps.push_back({pair.first, pair.second,
                     cost_of((count - kDiscount) / firsts[pair.first])});
  }
  return steps;
}

}  // namespace sheaf
