#pragma once

#include <compare>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "phonics/phonics.h"

namespace sheaf {

/// The index of the common words that have each pattern, as it stands in the
/// compiled word list: for each pattern where its entries begin, one number
/// more for the end, then an entry a word, or several where accents have the
/// pattern otherwise (in another place, without a word that sounds like it). A
/// byte an entry besides says which accents have it so. Finding words by
/// reading all of them takes a third of a second; this takes none.
struct PatternIndexEntry {
  std::uint32_t word = 0;  ///< where its first record stands, below 2^24
  PatternWord::Place place = PatternWord::Place::middle;
  bool twice = false;
  bool later = false;
  bool weak = false;
  bool unsure = false;
  bool twin = false;
  bool affix = false;

  /// By word first.
  auto operator<=>(const PatternIndexEntry&) const = default;
};
/// The bit of an accent in the byte of an entry, which tells the accents that
/// have it so, as they are by themselves.
constexpr std::uint8_t index_bit(Accent accent) {
  return static_cast<std::uint8_t>(1U << static_cast<int>(accent));
}
inline constexpr std::uint8_t kAllIndexed = 15;

std::uint32_t pack(const PatternIndexEntry& entry);
PatternIndexEntry unpack_entry(std::uint32_t packed);

/// The packed entries of a pattern, and the accents of each.
struct PatternEntries {
  std::span<const std::uint32_t> packed;
  std::span<const std::uint8_t> accents;  ///< as many
};
/// None where the index is damaged.
PatternEntries entries_of(std::span<const std::uint32_t> index,
                          std::span<const std::uint8_t> accents,
                          PatternId pattern);

/// A set of hashes as a bit each. What is in it is always found; one in
/// sixteen of the things that are not in it is found too, at about 65,000
/// members, which costs a made-up word and nothing else.
class HashSet {
 public:
  static constexpr std::uint32_t kBits = 1U << 20U;
  /// For what only some accents have, a sixteenth of that.
  static constexpr std::uint32_t kFewBits = 1U << 16U;

  explicit HashSet(std::uint32_t bits = kBits) : bytes_(bits / 8) {}
  void add(std::uint32_t hash) {
    bytes_[hash / 8 % bytes_.size()] |=
        static_cast<std::uint8_t>(1U << hash % 8);
  }
  const std::vector<std::uint8_t>& bytes() const { return bytes_; }

 private:
  std::vector<std::uint8_t> bytes_;
};
/// Whether a set's bytes hold the hash; no where there are none.
bool is_in_hash_set(std::span<const std::uint8_t> bytes, std::uint32_t hash);

/// What the section `said` keeps of a reading.
std::uint32_t said_hash(std::span<const Phoneme> phonemes);
/// What the section `spelled` keeps of a word in lower case.
std::uint32_t spelled_hash(std::string_view word);

}  // namespace sheaf
