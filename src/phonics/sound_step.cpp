#include "phonics/sound_step.h"

#include <algorithm>

#include "phonics/alike.h"

namespace sheaf {

namespace {

// One piece of the longer word that the shorter one lacks. Where two of them
// would do (the s of miss), the last is as good as the first.
std::optional<std::size_t> piece_more(const std::vector<SoundPiece>& shorter,
                                      const std::vector<SoundPiece>& longer) {
  const auto differ = std::ranges::mismatch(shorter, longer);
  const auto at = differ.in2 - longer.begin();
  if (!std::equal(differ.in1, shorter.end(), longer.begin() + at + 1,
                  longer.end())) {
    return std::nullopt;
  }
  return static_cast<std::size_t>(at);
}

}  // namespace

bool is_heard_alike(const SoundPiece& a, const SoundPiece& b) {
  if (a.sound.size() != 1 || b.sound.size() != 1) return a.sound == b.sound;
  return same_sound(a.sound.front(), b.sound.front());
}

std::vector<SoundPiece> sound_pieces(const Reading& reading) {
  std::vector<SoundPiece> pieces;
  for (const Sound& sound : reading.sounds) {
    if (sound.part > 0) continue;
    SoundPiece& piece = pieces.emplace_back();
    piece.boxes = sound.parts;
    for (std::size_t i = 0; i < sound.units; ++i) {
      const Unit& unit = reading.units[sound.unit + i];
      piece.grapheme += unit.grapheme;
      piece.sound.insert(piece.sound.end(), unit.phonemes.begin(),
                         unit.phonemes.end());
    }
  }
  return pieces;
}

std::optional<SoundStep> sound_step(const std::vector<SoundPiece>& from,
                                    const std::vector<SoundPiece>& to) {
  SoundStep step;
  if (from.size() == to.size()) {
    const auto differ = std::ranges::mismatch(from, to);
    if (differ.in1 == from.end()) return std::nullopt;
    if (!std::equal(differ.in1 + 1, from.end(), differ.in2 + 1, to.end())) {
      return std::nullopt;
    }
    step.from = *differ.in1;
    step.to = *differ.in2;
    if (is_heard_alike(step.from, step.to) ||
        step.from.grapheme == step.to.grapheme) {
      return std::nullopt;
    }
    step.at = static_cast<std::size_t>(differ.in1 - from.begin());
    step.pieces = from.size();
  } else if (from.size() + 1 == to.size()) {
    const auto at = piece_more(from, to);
    if (!at) return std::nullopt;
    step.kind = SoundStep::Kind::add;
    step.to = to[*at];
    step.at = *at;
    step.pieces = to.size();
  } else if (from.size() == to.size() + 1) {
    const auto at = piece_more(to, from);
    if (!at) return std::nullopt;
    step.kind = SoundStep::Kind::take;
    step.from = from[*at];
    step.at = *at;
    step.pieces = from.size();
  } else {
    return std::nullopt;
  }
  // The x of box and the qu of quit are more than one sound.
  const bool one_sound = (step.from.sound.empty() || step.from.boxes == 1) &&
                         (step.to.sound.empty() || step.to.boxes == 1);
  return one_sound ? std::optional(step) : std::nullopt;
}

}  // namespace sheaf
