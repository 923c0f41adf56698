#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "marking/sound_spellings.h"
#include "marking/spelling_fit.h"
#include "marking/target_units.h"

namespace sheaf {

/// What stands in an attempt for one grapheme of the word that was meant.
struct AlignedGrapheme {
  enum class Kind : std::uint8_t {
    exact,
    plausible,  ///< other letters that say the sound there
    wrong,
    missing,
    moved,  ///< its letters are there, out of order
  };
  Kind kind = Kind::missing;
  /// The letters that stand for it, [begin, end); for a split spelling those
  /// before the gap, and its e at `split_e`.
  std::size_t begin = 0, end = 0;
  int split_e = -1;
  /// Of a plausible one: whether English usually puts it there, and whether
  /// it is plausible by the learner's own speech only.
  Fit fit = Fit::usual;
  bool by_speech = false;
};

struct GraphemeAlignment {
  /// One for each unit of the target.
  std::vector<AlignedGrapheme> units;
  /// Letters that belong to no grapheme of the target.
  std::vector<std::size_t> extra;
  /// How unlike the two are: 0 for the same, about 120 for a plausible
  /// grapheme, 550 to 1000 for a wrong one, 750 for an extra letter.
  int cost = 0;
};

/// Lays what was written against what was meant at the least cost. `letters`
/// as in `WrittenWord`.
GraphemeAlignment align_graphemes(const SoundSpellings& spellings,
                                  std::span<const TargetUnit> target,
                                  std::string_view letters,
                                  const LearnerSpeech& speech);

/// The same for letters that are laid against many words.
class WrittenGraphemes;
GraphemeAlignment align_graphemes(const WrittenGraphemes& written,
                                  std::span<const TargetUnit> target);

}  // namespace sheaf
