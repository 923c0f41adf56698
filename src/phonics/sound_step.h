#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "phonics/reading.h"

namespace sheaf {

/// A grapheme of a word with what it says, as the boxes count it: nk is one
/// where the conventions have it in one box.
struct SoundPiece {
  std::string grapheme;
  std::vector<Phoneme> sound;
  int boxes = 1;

  friend bool operator==(const SoundPiece&, const SoundPiece&) = default;
};
std::vector<SoundPiece> sound_pieces(const Reading& reading);

/// Whether many people hear the two as one: like `same_sound`, but for what
/// stands before r (farm, form).
bool is_heard_alike(const SoundPiece& a, const SoundPiece& b);

/// What one sound more, less or other makes of a word.
struct SoundStep {
  enum class Kind : std::uint8_t { change, add, take };
  enum class Place : std::uint8_t { first, middle, last };

  Kind kind = Kind::change;
  /// Where the sound stands, from 0, among the pieces of the word that has it:
  /// of the new word for one that is added, else of the old.
  std::size_t at = 0;
  std::size_t pieces = 0;  ///< of that word
  SoundPiece from, to;  ///< `from` is empty for one added, `to` for one taken

  Place place() const { return place_of(at, pieces); }
  static Place place_of(std::size_t at, std::size_t pieces) {
    return at == 0            ? Place::first
           : at + 1 == pieces ? Place::last
                              : Place::middle;
  }
};

/// A step without its pieces, which is found without copying anything.
struct BareStep {
  SoundStep::Kind kind = SoundStep::Kind::change;
  std::size_t at = 0, pieces = 0;  ///< as in SoundStep

  SoundStep::Place place() const { return SoundStep::place_of(at, pieces); }
};

/// The step from one word to another, if it is one: a sound of one box is
/// changed, added or taken away, and with it the letters of one grapheme;
/// everything else is said and spelled as before. Sounds that many hear as one
/// (see `is_heard_alike`) are no change, nor are letters that say the same.
std::optional<SoundStep> sound_step(const std::vector<SoundPiece>& from,
                                    const std::vector<SoundPiece>& to);
/// The same for searches that try many words.
std::optional<BareStep> bare_step(const std::vector<SoundPiece>& from,
                                  const std::vector<SoundPiece>& to);

}  // namespace sheaf
