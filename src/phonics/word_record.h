#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/conventions.h"
#include "phonics/reading.h"
#include "phonics/segment.h"

namespace sheaf {

/// How one reading of a word stands in the compiled word list. A record spells
/// its word by its correspondences, so letters are not kept beside them.
///
/// Behind the readings of a word stand those that only some accents have, each
/// with its accents.
///
/// Bytes: flags (tier 4 bits, origin 2, another reading follows, has a label),
/// marks (everyday, name, bath, first, british, accents, an accent's reading
/// follows, also a name), stress (a bit for each syllable from the first),
/// label number if there is one, bath vowels if there are any, accents if not
/// all, then codes up to a zero.
struct WordRecord {
  std::string spelling;  ///< in lower case, with apostrophes and hyphens
  Segments segments;
  std::uint16_t stress = 0;
  /// The size of the SCOWL list that first has the word (10 to 95), 0: none.
  int tier = 0;
  Reading::Origin origin = Reading::Origin::lexicon;
  int label = 0;  ///< a row of the label table, 0: none
  bool everyday = false;
  bool first = false;      ///< known before the other everyday words
  bool name = false;       ///< written with a capital
  bool also_name = false;  ///< a word that is a name too, with one (Jack)
  /// Of its short a, in their order, those that are the a of father in some
  /// accents: a bit each. The upper four bits are of those that are not so in
  /// Australia.
  std::uint8_t bath = 0;
  bool british = false;  ///< in no list of what is spelled so in America
  /// The accents that have this reading, a bit each (`accent_bit`); 0 where all
  /// have it that have no readings of their own.
  std::uint8_t accents = 0;
  bool more = false;    ///< another reading of the same word follows
  bool varies = false;  ///< a reading of some accents follows

  static constexpr int kMostBathVowels = 4;
  unsigned bath_vowels(bool australian) const {
    const unsigned all = bath & 0x0FU, not_there = bath >> 4U;
    return australian ? all & ~not_there : all;
  }
};

/// The bit of an accent in `WordRecord::accents`; none for General American,
/// whose readings the others differ from.
constexpr std::uint8_t accent_bit(Accent accent) {
  return accent == Accent::general_american
             ? 0
             : static_cast<std::uint8_t>(1U << (static_cast<int>(accent) - 1));
}
inline constexpr std::uint8_t kEveryAccent = 7;

/// Whether a segment is a short a that may be the a of father in other accents.
bool is_short_a(const Segment& segment, const Inventory& inventory);

/// Two words, one behind the other, as one: its stress is that of both.
WordRecord join_records(const WordRecord& first, const WordRecord& second,
                        std::string spelling, const Inventory& inventory);

/// Adds the record to `bytes`.
void encode_record(const WordRecord& record, const Inventory& inventory,
                   std::vector<std::uint8_t>& bytes);

/// Reads the record at `offset` and moves `offset` past it. Damaged bytes give
/// nothing.
std::optional<WordRecord> decode_record(std::span<const std::uint8_t> bytes,
                                        std::size_t& offset,
                                        const Inventory& inventory);

/// Whether the record at `offset` spells this word; reads no further than the
/// first difference.
bool record_spells(std::span<const std::uint8_t> bytes, std::size_t offset,
                   std::string_view spelling, const Inventory& inventory);

/// The tier of the record at `offset`.
int record_tier(std::span<const std::uint8_t> bytes, std::size_t offset);

/// What a record says about its word in its fixed bytes; see `WordRecord`.
struct WordHead {
  int tier = 0;
  bool everyday = false;
  bool first = false;
  bool name = false;
  bool british = false;
  bool also_name = false;
};
WordHead record_head(std::span<const std::uint8_t> bytes, std::size_t offset);

}  // namespace sheaf
