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
};

std::uint32_t pack(const PatternEntry& entry);
PatternEntry unpack_entry(std::uint32_t packed);

/// The packed entries of a pattern; none where the index is damaged.
std::span<const std::uint32_t> entries_of(
    std::span<const std::uint32_t> index, PatternId pattern);

/// What the section `said` keeps of a reading.
std::uint32_t said_hash(std::span<const Phoneme> phonemes);
/// What the section `spelled` keeps of a word in lower case.
std::uint32_t spelled_hash(std::string_view word);

}  // namespace sheaf
