#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/phoneme.h"

namespace sheaf {

/// A grapheme with the phonemes that it can spell. Plain bytes, so that the
/// compiled word list can be used where it lies in memory.
struct Correspondence {
  static constexpr int kLongestGrapheme = 7;
  static constexpr int kMostPhonemes = 3;

  char letters[kLongestGrapheme];
  std::uint8_t length;
  Phoneme sounds[kMostPhonemes];
  std::uint8_t sound_count;
  /// Seldom met and not taught for itself.
  std::uint8_t rare;
  /// For a few words only (iron's on), which name it themselves; the aligner
  /// passes it over.
  std::uint8_t by_hand;
  static constexpr std::uint8_t kByHand = 1;
  /// Such a one that General American does not have (the au of sausage).
  static constexpr std::uint8_t kOfAccents = 2;
  /// How unlikely it is among all, in 1/256 of a natural logarithm.
  std::uint16_t cost;

  std::string_view grapheme() const { return {letters, length}; }
  std::span<const Phoneme> phonemes() const { return {sounds, sound_count}; }
  /// A vowel letter whose e stands behind the next consonant: a_e.
  bool is_split() const { return length == 3 && letters[1] == '_'; }
  /// How many letters stand together in the word: "sh" 2, "a_e" 1.
  int width() const { return is_split() ? 1 : length; }
  bool has_vowel() const;
};
static_assert(sizeof(Correspondence) == 16);

using CorrespondenceId = std::uint16_t;

/// All correspondences of English that Sheaf knows, in the order of their
/// ids. Does not own the records.
class Inventory {
 public:
  Inventory() = default;
  explicit Inventory(std::span<const Correspondence> all);

  std::span<const Correspondence> all() const { return all_; }
  const Correspondence& operator[](CorrespondenceId id) const {
    return all_[id];
  }
  /// The ids whose grapheme begins with a letter a to z.
  std::span<const CorrespondenceId> beginning_with(char letter) const;
  /// The id of a grapheme with exactly these phonemes, or -1.
  int find(std::string_view grapheme, std::span<const Phoneme> phonemes) const;
  /// Whether any grapheme says these phonemes together, as x says /ks/.
  bool spells(std::span<const Phoneme> phonemes) const;

 private:
  std::span<const Correspondence> all_;
  std::vector<CorrespondenceId> by_letter_;
  std::array<std::uint16_t, 27> begins_{};
};

/// Reads the text of correspondences.tsv. `fault` says what is wrong with it,
/// with the number of the line, or stays empty.
std::vector<Correspondence> read_correspondences(std::string_view text,
                                                 std::string& fault);

/// "ay er n" to phonemes; false where a name is unknown. Adds to `phonemes`.
bool read_phonemes(std::string_view names, std::vector<Phoneme>& phonemes);

}  // namespace sheaf
