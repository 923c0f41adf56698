#pragma once

#include <cstdint>
#include <string_view>
#include <utility>
#include <vector>

namespace sheaf {

/// Numbers that look random and are the same on every machine for the same
/// seed (SplitMix64, Steele, Lea and Flood 2014). Not for secrets.
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}

  std::uint64_t next();
  /// A number from 0 to `count` - 1; `count` must not be 0.
  std::uint64_t below(std::uint64_t count);

 private:
  std::uint64_t state_;
};

/// A number made from text, the same on every machine (FNV-1a, 64 bits). Pass
/// the last result as `start` to go on over several texts.
std::uint64_t text_hash(std::string_view text,
                        std::uint64_t start = 0xCBF29CE484222325U);

/// Puts the items in an order that only `random` decides (Fisher and Yates).
template <typename T>
void shuffle(std::vector<T>& items, Random& random) {
  for (std::size_t left = items.size(); left > 1; --left) {
    std::swap(items[left - 1], items[random.below(left)]);
  }
}

}  // namespace sheaf
