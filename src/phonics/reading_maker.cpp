#include "phonics/reading_maker.h"

#include <algorithm>

#include "phonics/accent.h"
#include "phonics/boxes.h"
#include "phonics/syllables.h"

namespace sheaf {
namespace {

void set_syllables(Reading& reading, std::uint16_t stress) {
  std::vector<Phoneme> all;
  all.reserve(reading.units.size() + 2);
  for (const Unit& unit : reading.units) {
    all.insert(all.end(), unit.phonemes.begin(), unit.phonemes.end());
  }
  const std::vector<std::uint8_t> syllables = syllables_of(all);
  std::size_t at = 0;
  for (Unit& unit : reading.units) {
    const auto vowel = std::ranges::find_if(unit.phonemes, is_vowel);
    const std::size_t key =
        vowel == unit.phonemes.end()
            ? at
            : at + static_cast<std::size_t>(vowel - unit.phonemes.begin());
    unit.syllable = key < syllables.size() ? syllables[key] : 0;
    unit.stressed = unit.syllable < 16 && (stress >> unit.syllable & 1) != 0;
    at += unit.phonemes.size();
  }
}

// What a grapheme most often says, or nothing.
std::span<const Phoneme> usual_sounds(std::string_view grapheme,
                                      const Inventory& inventory) {
  const Correspondence* best = nullptr;
  for (const CorrespondenceId id : inventory.beginning_with(grapheme[0])) {
    const Correspondence& c = inventory[id];
    const bool fits = c.grapheme() == grapheme && c.by_hand == 0;
    if (fits && (best == nullptr || c.cost < best->cost)) best = &c;
  }
  return best == nullptr ? std::span<const Phoneme>{} : best->phonemes();
}

// One sign for two letters (æ) is one grapheme, whatever it was split into: it
// says what the two letters say together, else what the first of them does.
void join(Unit& unit, const Unit& next, const Inventory& inventory) {
  unit.grapheme += next.grapheme;
  unit.end = next.end;
  if (next.is_split()) unit.split_e = next.split_e;
  const auto sounds = usual_sounds(unit.grapheme, inventory);
  if (!sounds.empty()) unit.phonemes.assign(sounds.begin(), sounds.end());
  unit.irregular = true;
}

}  // namespace

Reading make_reading(std::string_view word, const LetterMap& map,
                     std::span<const Segment> segments, std::uint16_t stress,
                     const Inventory& inventory,
                     const Conventions& conventions) {
  Reading reading;
  reading.word = word;
  reading.units.reserve(segments.size());
  for (const Segment& segment : segments) {
    const Correspondence& c = inventory[segment.id];
    Unit unit;
    unit.grapheme = c.grapheme();
    unit.begin = map.begins[segment.begin];
    unit.end = map.ends[segment.begin + c.width() - 1];
    if (segment.split_e >= 0) unit.split_e = map.begins[segment.split_e];
    unit.phonemes.assign(c.phonemes().begin(), c.phonemes().end());
    unit.irregular = c.rare != 0;
    if (!reading.units.empty() && unit.begin < reading.units.back().end) {
      join(reading.units.back(), unit, inventory);
      continue;
    }
    reading.units.push_back(std::move(unit));
  }
  finish_reading(reading, stress, conventions);
  return reading;
}

void finish_reading(Reading& reading, std::uint16_t stress,
                    const Conventions& conventions) {
  reading.speech = speech_of(conventions);
  for (Unit& unit : reading.units) unit.listed = as_listed(unit.phonemes);
  set_syllables(reading, stress);
  apply_accent(reading.units, conventions);
  reading.sounds = count_boxes(reading.units, conventions);
}

}  // namespace sheaf
