#include "marking/sound_place.h"

#include <array>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "phonics/notation.h"

namespace sheaf {
namespace {

std::string beat_name(int beat, int beats) {
  constexpr std::array<std::string_view, 5> kNames = {
      "first", "second", "third", "fourth", "fifth"};
  if (beats == 1) return {};
  const auto at = static_cast<std::size_t>(beat);
  return std::string(at < kNames.size() ? kNames[at] : "last");
}

// The sounds of a beat, as indices into the word's.
std::vector<std::size_t> sounds_of_beat(const Reading& word, int beat) {
  std::vector<std::size_t> sounds;
  for (std::size_t i = 0; i < word.sounds.size(); ++i) {
    if (word.units[word.sounds[i].unit].syllable == beat) sounds.push_back(i);
  }
  return sounds;
}

bool is_of_unit(const Sound& sound, std::size_t unit) {
  return sound.unit <= unit && unit < std::size_t{sound.unit} + sound.units;
}

}  // namespace

std::string sound_of_unit(const Reading& word, std::size_t unit,
                          const Conventions& conventions) {
  for (std::size_t i = 0; i < word.sounds.size(); ++i) {
    const Sound& sound = word.sounds[i];
    if (sound.unit == unit && sound.units == 1 && sound.parts == 1) {
      return fmt::format("/{}/", sound_name(sound.phonemes, conventions));
    }
  }
  return fmt::format("/{}/",
                     sound_name(word.units[unit].phonemes, conventions));
}

SoundPlace sound_place(const Reading& word, std::size_t unit,
                       const Conventions& conventions) {
  SoundPlace place;
  const int beat = word.units[unit].syllable;
  place.beat = beat_name(beat, word.syllables());
  const std::vector<std::size_t> sounds = sounds_of_beat(word, beat);
  place.sounds = static_cast<int>(sounds.size());
  std::size_t first = sounds.size(), last = 0;
  for (std::size_t i = 0; i < sounds.size(); ++i) {
    if (!is_of_unit(word.sounds[sounds[i]], unit)) continue;
    first = std::min(first, i);
    last = i;
  }
  if (first == sounds.size() || (first == 0 && last + 1 == sounds.size())) {
    return place;  // it is all that the beat has
  }
  const std::string_view noun = first == last ? "sound" : "sounds";
  if (first == 0) {
    place.sound = fmt::format("the first {}", noun);
  } else if (last + 1 == sounds.size()) {
    place.sound = fmt::format("the last {}", noun);
  } else if (place.beat.empty() && sounds.size() == 3) {
    place.sound = "the middle sound";
  } else {
    const Sound& before = word.sounds[sounds[first - 1]];
    place.sound = fmt::format("the {} after {}", noun,
                              sound_of_unit(word, before.unit, conventions));
  }
  return place;
}

}  // namespace sheaf
