#pragma once

#include <cstdint>
#include <span>

#include "phonics/phoneme.h"

namespace sheaf {

/// A common word in the section `sound_alikes` of the compiled word list, with
/// the key of its sounds; in the order of keys, commoner words first.
struct SoundAlike {
  std::uint32_t key = 0;
  /// Where its first record stands, below 2^24, and its region in the bits
  /// above.
  std::uint32_t packed = 0;

  /// Which English spells the word so: gray and grey are one word.
  enum class Region : std::uint8_t { both, american, british };

  std::uint32_t word() const { return packed & kWordMask; }
  Region region() const { return static_cast<Region>(packed >> kWordBits & 3); }

  static constexpr std::uint32_t kWordBits = 24;
  static constexpr std::uint32_t kWordMask = (1U << kWordBits) - 1;
};

/// The same for words that sound alike in any of the accents and conventions:
/// what they merge is taken for one (cot and caught; sauce and source, where r
/// is lost), so words of one key still have to be compared in the accent in
/// force. Sounds of any accent may be given.
std::uint32_t sound_alike_key(std::span<const Phoneme> sounds);

}  // namespace sheaf
