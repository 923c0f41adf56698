#include "phonics/sound_alikes.h"

#include <algorithm>

#include "base/utf8.h"
#include "phonics/pattern_index.h"
#include "phonics/phonics_impl.h"

namespace sheaf {
namespace {

using P = Phoneme;

// The sound that stands for all that some accent merges with it.
P merged(P sound) {
  switch (sound) {
    case P::ao:
    case P::oh:
      return P::aa;
    case P::er:
      return P::ax;
    case P::ia:
      return P::ih;
    case P::ea:
      return P::eh;
    case P::ua:
      return P::uh;
    case P::hw:
      return P::w;
    default:
      return sound;
  }
}

std::vector<P> sounds_of(const Reading& reading, bool listed) {
  std::vector<P> sounds;
  for (const Unit& unit : reading.units) {
    const auto& own = listed ? unit.listed : unit.phonemes;
    sounds.insert(sounds.end(), own.begin(), own.end());
  }
  return sounds;
}

// A word of one beat may be listed without stress (to, for).
bool same_stress(const Reading& a, const Reading& b) {
  if (a.syllables() < 2) return true;
  const auto stressed = [](const Reading& reading) {
    std::uint64_t bits = 0;
    for (const Unit& unit : reading.units) {
      if (unit.stressed && unit.syllable < 64) {
        bits |= std::uint64_t{1} << unit.syllable;
      }
    }
    return bits;
  };
  return stressed(a) == stressed(b);
}

using Region = SoundAlike::Region;

bool is_here(Region region, Accent accent) {
  if (region == Region::both) return true;
  return (accent == Accent::general_american) == (region == Region::american);
}

}  // namespace

std::uint32_t sound_alike_key(std::span<const Phoneme> sounds) {
  std::vector<P> key;
  for (std::size_t i = 0; i < sounds.size(); ++i) {
    if (sounds[i] == P::r && i > 0 && is_vowel(sounds[i - 1])) continue;
    key.push_back(merged(sounds[i]));
  }
  return said_hash(key);
}

std::vector<std::string> Phonics::sound_alikes(
    const Reading& reading, const Conventions& conventions) const {
  const auto all = impl_->file.records<SoundAlike>(Section::sound_alikes);
  const std::string own = map_letters(reading.word).spelling;
  const std::vector<P> said = sounds_of(reading, false);
  std::vector<std::uint32_t> keys = {sound_alike_key(sounds_of(reading, true))};
  if (const auto key = sound_alike_key(said); key != keys[0]) {
    keys.push_back(key);
  }
  Region region = Region::both;
  std::vector<SoundAlike> near;
  for (const std::uint32_t key : keys) {
    const auto same = std::ranges::equal_range(all, key, {}, &SoundAlike::key);
    near.insert(near.end(), same.begin(), same.end());
  }
  for (const SoundAlike& one : near) {
    if (one.word() == impl_->lexicon.find(own)) region = one.region();
  }
  std::vector<std::string> found;
  for (const SoundAlike& one : near) {
    // Of two spellings of one word the other is none.
    const bool variant = region != Region::both &&
                         one.region() != Region::both && region != one.region();
    if (variant || !is_here(one.region(), conventions.accent)) continue;
    const auto record = impl_->lexicon.record(one.word());
    if (!record || record->spelling == own ||
        std::ranges::find(found, record->spelling) != found.end()) {
      continue;
    }
    for (const Reading& other : impl_->read_units(
             record->spelling, map_letters(record->spelling), conventions)) {
      if (sounds_of(other, false) == said && same_stress(other, reading)) {
        found.push_back(record->spelling);
        break;
      }
    }
  }
  return found;
}

}  // namespace sheaf
