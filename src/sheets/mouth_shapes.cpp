#include "sheets/mouth_shapes.h"

#include <array>

#include "phonics/sound_making.h"

namespace sheaf {

namespace {

// The top of the tongue for each of its places, in the units of the drawing and
// in the order of `SoundMaking::Tongue`. Judged by eye from how phonetics tells
// the places apart, not measured from anybody's mouth.
constexpr std::array<MouthTongue, 17> kTongues = {{
    {{34, 61}, {41, 56}, {54, 52}, {68, 57}},      // at rest
    {{22, 54.5}, {34, 53}, {50, 51}, {67, 57}},    // between the teeth
    {{32.5, 45.5}, {39, 46}, {53, 51}, {68, 57}},  // behind the top teeth
    {{32, 50}, {38, 44.5}, {52, 47}, {68, 55}},    // close behind them
    {{36, 50}, {44, 39.5}, {55, 42}, {69, 53}},    // near the roof
    {{36, 62}, {44, 56}, {57, 42}, {68, 33.5}},    // its back up
    {{42, 50}, {47, 46.5}, {58, 44}, {69, 53}},    // drawn back
    {{34, 56}, {42, 41.5}, {52, 36}, {67, 50}},    // high at the front
    {{34, 58}, {42, 46}, {52, 41}, {67, 52}},      // a little lower
    {{34, 61}, {42, 51}, {52, 46}, {67, 54}},      // halfway
    {{34, 65}, {42, 59}, {53, 55}, {68, 58}},      // low at the front
    {{36, 62}, {44, 54}, {55, 48}, {68, 53}},      // in the middle
    {{36, 66}, {43, 62}, {55, 58}, {68, 60}},      // low
    {{37, 67}, {45, 64}, {58, 59}, {69, 56}},      // low at the back
    {{38, 64}, {46, 58}, {58, 49}, {69, 48}},      // halfway at the back
    {{38, 63}, {46, 55}, {58, 43.5}, {69, 43}},    // nearly high
    {{39, 63}, {47, 54}, {58, 40}, {69, 38}},      // high at the back
}};

MouthTongue tongue_of(const SoundMaking& making) {
  return kTongues[static_cast<std::size_t>(making.tongue)];
}

MouthShape::Lips lips_of(SoundMaking::Lips lips) {
  using From = SoundMaking::Lips;
  using To = MouthShape::Lips;
  switch (lips) {
    case From::shut:
      return To::shut;
    case From::teeth:
      return To::teeth;
    case From::round:
      return To::round;
    case From::forward:
      return To::forward;
    case From::spread:
      return To::spread;
    case From::open:
      break;
  }
  return To::open;
}

MouthShape::Air air_of(SoundMaking::Air air) {
  using From = SoundMaking::Air;
  using To = MouthShape::Air;
  switch (air) {
    case From::stop:
      return To::stop;
    case From::rush:
      return To::rush;
    case From::rub:
      return To::rub;
    case From::sides:
      return To::sides;
    case From::nose:
      return To::nose;
    case From::free:
      break;
  }
  return To::free;
}

// What the sound moves to, or null.
const SoundMaking* end_of(const std::vector<Phoneme>& sound) {
  if (sound.size() > 1) return &making_of(sound[1]);
  const auto& end = making_of(sound.front()).end;
  return end ? &making_of(*end) : nullptr;
}

}  // namespace

bool has_mouth_shape(const std::vector<Phoneme>& sound) {
  if (sound.size() == 1) return true;
  if (sound.size() != 2) return false;
  return (is_vowel(sound[0]) && sound[1] == Phoneme::r) ||
         (sound[0] == Phoneme::y && sound[1] == Phoneme::uw);
}

MouthShape mouth_shape(const std::vector<Phoneme>& sound) {
  const SoundMaking& making = making_of(sound.front());
  MouthShape shape{.lips = lips_of(making.lips),
                   .jaw = making.jaw,
                   .tongue = tongue_of(making),
                   .air = air_of(making.air),
                   .voice = making.voice};
  if (const SoundMaking* end = end_of(sound)) shape.end = tongue_of(*end);
  return shape;
}

std::vector<std::string> told_of_mouth(const std::vector<Phoneme>& sound) {
  const SoundMaking& making = making_of(sound.front());
  std::vector<std::string> told = {std::string(told_lips(making)),
                                   std::string(told_tongue(making))};
  if (const SoundMaking* end = end_of(sound)) {
    told.emplace_back(told_end(*end));
  }
  told.emplace_back(told_air(making));
  told.emplace_back(told_voice(making));
  return told;
}

}  // namespace sheaf
