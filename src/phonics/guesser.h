#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "phonics/segment.h"

namespace sheaf {

/// How unlikely one correspondence is after another, as the word list has
/// them; sorted by both. Rows that the list does not have cost what the second
/// costs by itself, and `kUnseenStep`.
struct GuessStep {
  std::uint16_t previous;  ///< `kWordEdge` at the beginning
  std::uint16_t id;        ///< `kWordEdge` at the end
  std::uint16_t cost;      ///< in 1/256 of a natural logarithm

  friend auto operator<=>(const GuessStep& a, const GuessStep& b) {
    return a.previous != b.previous ? a.previous <=> b.previous : a.id <=> b.id;
  }
  friend bool operator==(const GuessStep&, const GuessStep&) = default;
};
inline constexpr std::uint16_t kWordEdge = 0xFFFF;
inline constexpr int kUnseenStep = 900;

/// Lays an unknown word out by what is usual: graphemes and sounds together,
/// each judged by the one before it. Empty where even that fails.
Segments guess_segments(std::string_view letters, const Inventory& inventory,
                        std::span<const GuessStep> steps);

}  // namespace sheaf
