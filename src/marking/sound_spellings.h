#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "phonics/inventory.h"

namespace sheaf {

/// One way to spell a sound (or the few sounds of one grapheme), with how
/// usual it is. Shares are counted over the word list, in parts of 10,000.
struct Spelling {
  /// As the inventory writes it: "sh", "a_e".
  std::string_view grapheme;
  std::span<const Phoneme> phonemes;
  bool split = false;
  bool rare = false;
  /// Of all uses of the grapheme, those that say this sound.
  int share_of_grapheme = 0;
  /// Of all spellings of this sound, those with the grapheme.
  int share_of_sound = 0;

  /// Letters that stand together: 1 for a split one.
  std::size_t width() const { return split ? 1 : grapheme.size(); }
};

/// The inventory's correspondences the other way round: what every grapheme
/// says and how every sound is spelled, with shares. Made once, then read-only.
/// The inventory's records must outlive it.
class SoundSpellings {
 public:
  explicit SoundSpellings(const Inventory& inventory);
  // Spellings point into the records that this owns.
  SoundSpellings(const SoundSpellings&) = delete;
  SoundSpellings& operator=(const SoundSpellings&) = delete;

  /// All whose grapheme begins with a letter a to z, longest grapheme first.
  std::span<const Spelling> beginning_with(char letter) const;
  /// All with exactly this grapheme, the commonest first.
  std::span<const Spelling> of_grapheme(std::string_view grapheme) const;
  /// All spellings of exactly these phonemes, the commonest first.
  std::vector<const Spelling*> of_sound(std::span<const Phoneme> sound) const;
  bool is_grapheme(std::string_view letters) const {
    return !of_grapheme(letters).empty();
  }

 private:
  std::vector<Correspondence> added_;
  std::vector<Spelling> all_;
  std::array<std::uint16_t, 27> begins_{};
};

}  // namespace sheaf
