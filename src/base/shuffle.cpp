#include "base/shuffle.h"

#include <cassert>

namespace sheaf {

std::uint64_t Random::next() {
  state_ += 0x9E3779B97F4A7C15U;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
  return z ^ (z >> 31U);
}

std::uint64_t Random::below(std::uint64_t count) {
  assert(count > 0);
  const std::uint64_t uneven = (~count + 1) % count;
  std::uint64_t value = next();
  while (value < uneven) value = next();
  return value % count;
}

std::uint64_t text_hash(std::string_view text, std::uint64_t start) {
  std::uint64_t hash = start;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001B3U;
  }
  return hash;
}

}  // namespace sheaf
