#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "marking/sound_spellings.h"
#include "marking/spelling_fit.h"
#include "marking/target_units.h"

namespace sheaf {

/// What one change costs. A grapheme replaced by a likely one must be cheaper
/// than one left out beside an extra letter; tuned on attempts labelled by
/// hand, see the tests.
namespace cost {
inline constexpr int kPlausible = 120;
inline constexpr int kUnusual = 60;        ///< English seldom puts it there
inline constexpr int kDoubtful = 80;       ///< if it mostly says something else
inline constexpr int kMoreGraphemes = 40;  ///< each after the first
inline constexpr int kBySpeech = 200;
inline constexpr int kMovedInside = 350;  ///< the letters of one grapheme
inline constexpr int kSwapped = 700;      ///< two graphemes
inline constexpr int kBroken = 800;       ///< letters of two graphemes mixed
inline constexpr int kMissing = 800;
inline constexpr int kExtra = 750;
inline constexpr int kExtraTwin = 600;  ///< a letter written twice
inline constexpr int kExtraFinalE = 650;
inline constexpr int kKeptE = 300;  ///< makeing
inline constexpr int kWrong = 550;
inline constexpr int kShortNeighbour = 150;  ///< less: e for i
inline constexpr int kOtherKind = 1700;      ///< a vowel for a consonant
inline constexpr int kOtherKindOverlap = 900;
inline constexpr int kDigraphParted = 400;  ///< the h of ch for a sound
}  // namespace cost

/// Written letters that say the sounds of a target unit.
struct SoundMatch {
  std::size_t end = 0;
  int cost = 0;
  Fit fit = Fit::usual;
  bool by_speech = false;
  /// A split grapheme: its e is still to come.
  bool split = false;
};

/// Knows, for the letters of one attempt, which graphemes can be read where.
class WrittenGraphemes {
 public:
  WrittenGraphemes(const SoundSpellings& spellings, std::string_view letters,
                   const LearnerSpeech& speech);

  std::string_view letters() const { return letters_; }

  /// All ways to read `sounds` from the letters at `at` on, one for each end.
  /// The unit says how the sound was meant.
  void matches(const TargetUnit& unit, std::size_t at,
               std::vector<SoundMatch>& found) const;
  /// Whether one grapheme at `at` says these sounds (of two units); its end,
  /// or 0.
  std::size_t one_grapheme(std::span<const Phoneme> sounds, std::size_t at,
                           const TargetUnit& first) const;

  /// What it costs to take letters [begin, end) for a wrong spelling of the
  /// unit; `kNotWrong` where they are no such thing.
  static constexpr int kNotWrong = 100000;
  int wrong_cost(const TargetUnit& unit, std::size_t begin,
                 std::size_t end) const;
  /// How far the letters [begin, end) are from the unit by their sound.
  int distance(const TargetUnit& unit, std::size_t begin,
               std::size_t end) const;
  /// The best fit of the unit's sound with exactly these letters.
  Fit best_fit(const TargetUnit& unit, std::size_t begin,
               std::size_t end) const;

 private:
  struct Entry {
    const Spelling* spelling;
    std::size_t end;
    /// What `fit` found before, and below zero what nobody asked yet: a stress
    /// or none, and another grapheme that was meant or the letter u. Many units
    /// ask the same; one thread at a time does.
    mutable std::array<std::int8_t, 4> fits = {-1, -1, -1, -1};
  };
  struct Walk;
  struct Heard {
    bool is_grapheme;
    int distance;
  };
  Heard heard(const TargetUnit& unit, std::size_t begin, std::size_t end) const;
  /// Of a consonant: the letters begin or end with another spelling of it.
  bool has_plausible_part(const TargetUnit& unit, std::size_t begin,
                          std::size_t end) const;
  Fit fit(const TargetUnit& unit, std::size_t begin, const Entry& entry) const;
  bool is_r_vowel(const Entry& entry) const;
  void extend(const Walk& walk, std::size_t at, std::size_t done, int so_far,
              int graphemes, Fit fit, bool by_speech,
              std::vector<SoundMatch>& found) const;
  bool same_sound(Phoneme meant, Phoneme said, const TargetUnit& unit,
                  bool& by_speech) const;
  std::span<const Entry> at(std::size_t position) const {
    return std::span(entries_).subspan(
        begins_[position], begins_[position + 1] - begins_[position]);
  }

  std::string_view letters_;
  std::vector<Entry> entries_;
  std::vector<std::size_t> begins_;
  /// For each phoneme those that the learner does not tell from it, as bits.
  std::array<std::uint64_t, kPhonemeCount> alike_{};
  /// Those that are alike in some places only.
  std::vector<SoundConfusion> placed_;
};

static_assert(kPhonemeCount <= 64);

}  // namespace sheaf
