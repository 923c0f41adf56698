#include "phonics/pattern_index.h"

namespace sheaf {

namespace {

constexpr std::uint32_t kWordBits = 24;
constexpr std::uint32_t kWordMask = (1U << kWordBits) - 1;

// The low bits of FNV are weak; the high ones are folded into them.
std::uint32_t folded(std::uint32_t hash) { return hash ^ hash >> 15U; }

}  // namespace

std::uint32_t pack(const PatternIndexEntry& entry) {
  return (entry.word & kWordMask) |
         static_cast<std::uint32_t>(entry.place) << kWordBits |
         (entry.twice ? 1U << 26U : 0U) | (entry.later ? 1U << 27U : 0U) |
         (entry.weak ? 1U << 28U : 0U) | (entry.unsure ? 1U << 29U : 0U) |
         (entry.twin ? 1U << 30U : 0U) | (entry.affix ? 1U << 31U : 0U);
}

PatternIndexEntry unpack_entry(std::uint32_t packed) {
  PatternIndexEntry entry;
  entry.word = packed & kWordMask;
  const std::uint32_t place = packed >> kWordBits & 3U;
  entry.place = place == 1   ? PatternWord::Place::first
                : place == 2 ? PatternWord::Place::last
                             : PatternWord::Place::middle;
  entry.twice = (packed >> 26U & 1U) != 0;
  entry.later = (packed >> 27U & 1U) != 0;
  entry.weak = (packed >> 28U & 1U) != 0;
  entry.unsure = (packed >> 29U & 1U) != 0;
  entry.twin = (packed >> 30U & 1U) != 0;
  entry.affix = (packed >> 31U & 1U) != 0;
  return entry;
}

PatternEntries entries_of(std::span<const std::uint32_t> index,
                          std::span<const std::uint8_t> accents,
                          PatternId pattern) {
  const std::size_t at = pattern;
  // Patterns of a lesson's own are not in the index.
  if (index.empty() || at + 1 >= index[0]) return {};
  if (at + 1 >= index.size()) return {};
  const std::size_t head = index[0], begin = index[at], end = index[at + 1];
  if (head > begin || begin > end || end > index.size() ||
      end - head > accents.size()) {
    return {};
  }
  return {index.subspan(begin, end - begin),
          accents.subspan(begin - head, end - begin)};
}

bool is_in_hash_set(std::span<const std::uint8_t> bytes, std::uint32_t hash) {
  return !bytes.empty() &&
         (bytes[hash / 8 % bytes.size()] >> hash % 8 & 1U) != 0;
}

std::uint32_t said_hash(std::span<const Phoneme> phonemes) {
  std::uint32_t hash = 0x811C9DC5U;  // FNV-1a, 32 bits
  for (const Phoneme p : phonemes) {
    hash ^= static_cast<std::uint32_t>(p) + 1;
    hash *= 0x01000193U;
  }
  return folded(hash);
}

std::uint32_t spelled_hash(std::string_view word) {
  std::uint32_t hash = 0x811C9DC5U;
  for (const char c : word) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x01000193U;
  }
  return folded(hash);
}

}  // namespace sheaf
