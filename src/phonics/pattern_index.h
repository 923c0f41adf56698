#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "phonics/phonics.h"

namespace sheaf {

/// The index of the common words that have each pattern, as it stands in the
/// compiled word list: for each pattern where its entries begin, one number
/// more for the end, then an entry a word. Finding words by reading all of
/// them takes a third of a second; this takes none.
struct PatternEntry {
  std::uint32_t word = 0;  ///< where its first record stands, below 2^24
  PatternWord::Place place = PatternWord::Place::middle;
  bool twice = false;
  bool later = false;
  bool weak = false;
  bool unsure = false;
  bool twin = false;
  bool affix = false;
};

std::uint32_t pack(const PatternEntry& entry);
PatternEntry unpack_entry(std::uint32_t packed);

/// The packed entries of a pattern; none where the index is damaged.
std::span<const std::uint32_t> entries_of(std::span<const std::uint32_t> index,
                                          PatternId pattern);

/// A set of hashes as a bit each. What is in it is always found; one in
/// sixteen of the things that are not in it is found too, at about 65,000
/// members, which costs a made-up word and nothing else.
class HashSet {
 public:
  static constexpr std::uint32_t kBits = 1U << 20U;

  HashSet() : bytes_(kBits / 8) {}
  void add(std::uint32_t hash) {
    bytes_[hash % kBits / 8] |= static_cast<std::uint8_t>(1U << hash % 8);
  }
  const std::vector<std::uint8_t>& bytes() const { return bytes_; }

 private:
  std::vector<std::uint8_t> bytes_;
};
/// Whether a set's bytes hold the hash; no where they are damaged.
bool is_in_hash_set(std::span<const std::uint8_t> bytes, std::uint32_t hash);

/// What the section `said` keeps of a reading.
std::uint32_t said_hash(std::span<const Phoneme> phonemes);
/// What the section `spelled` keeps of a word in lower case.
std::uint32_t spelled_hash(std::string_view word);

}  // namespace sheaf
