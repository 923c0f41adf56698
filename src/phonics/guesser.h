#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "phonics/segment.h"

namespace sheaf {

/// How unlikely a correspondence is behind the two before it, or behind the
/// one before it alone, as the word list has them. Sorted by all but the cost.
/// The e of a split grapheme counts as a step of its own, so that its place is
/// learned too.
struct GuessStep {
  std::uint16_t before;    ///< `kAnyStep` where only `previous` counts
  std::uint16_t previous;  ///< `kWordEdge` at the beginning
  std::uint16_t id;        ///< `kWordEdge` at the end
  std::uint16_t cost;      ///< in 1/256 of a natural logarithm

  friend bool operator<(const GuessStep& a, const GuessStep& b) {
    return a.key() < b.key();
  }
  std::uint64_t key() const {
    return std::uint64_t{before} << 32 | std::uint64_t{previous} << 16 | id;
  }
};
inline constexpr std::uint16_t kWordEdge = 0xFFFF;
inline constexpr std::uint16_t kSplitStep = 0xFFFE;
inline constexpr std::uint16_t kAnyStep = 0xFFFD;
/// What it costs to know less: two steps back, one step back.
inline constexpr int kUnseenPair = 450;
inline constexpr int kUnseenStep = 900;

/// Lays an unknown word out by what is usual: graphemes and sounds together,
/// each judged by the two before it. Empty where even that fails.
Segments guess_segments(std::string_view letters, const Inventory& inventory,
                        std::span<const GuessStep> steps);

}  // namespace sheaf
