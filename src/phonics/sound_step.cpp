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

std::optional<BareStep> bare_step(const std::vector<SoundPiece>& from,
                                  const std::vector<SoundPiece>& to) {
  // The x of box and the qu of quit are more than one sound.
  const auto one_sound = [](const SoundPiece& piece) {
    return piece.sound.empty() || piece.boxes == 1;
  };
  if (from.size() == to.size()) {
    const auto differ = std::ranges::mismatch(from, to);
    if (differ.in1 == from.end() || !one_sound(*differ.in1) ||
        !one_sound(*differ.in2) || is_heard_alike(*differ.in1, *differ.in2) ||
        differ.in1->grapheme == differ.in2->grapheme ||
        !std::equal(differ.in1 + 1, from.end(), differ.in2 + 1, to.end())) {
      return std::nullopt;
    }
    return BareStep{SoundStep::Kind::change,
                    static_cast<std::size_t>(differ.in1 - from.begin()),
                    from.size()};
  }
  const bool adds = from.size() < to.size();
  const auto& shorter = adds ? from : to;
  const auto& longer = adds ? to : from;
  if (shorter.size() + 1 != longer.size()) return std::nullopt;
  const auto at = piece_more(shorter, longer);
  if (!at || !one_sound(longer[*at])) return std::nullopt;
  return BareStep{adds ? SoundStep::Kind::add : SoundStep::Kind::take, *at,
                  longer.size()};
}

std::optional<SoundStep> sound_step(const std::vector<SoundPiece>& from,
                                    const std::vector<SoundPiece>& to) {
  const auto bare = bare_step(from, to);
  if (!bare) return std::nullopt;
  SoundStep step{.kind = bare->kind, .at = bare->at, .pieces = bare->pieces};
  if (step.kind != SoundStep::Kind::add) step.from = from[step.at];
  if (step.kind != SoundStep::Kind::take) step.to = to[step.at];
  return step;
}

}  // namespace sheaf
