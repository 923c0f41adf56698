#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/utf8.h"
#include "phonics/accent.h"
#include "phonics/hand_split.h"
#include "phonics/notation.h"
#include "phonics/own_pattern.h"
#include "phonics/phonics_impl.h"
#include "phonics/reading_maker.h"

namespace sheaf {
namespace {

HandReading hand_fault(std::string text, int part) {
  HandReading result;
  result.fault = std::move(text);
  result.part = part;
  return result;
}

// The letters of a grapheme as the teacher wrote it; a_e keeps its line.
std::string plain_grapheme(std::string_view written) {
  const std::string text = lower_case(normalized(written));
  const std::size_t line = text.find('_');
  if (line == std::string::npos) return map_letters(text).letters;
  return map_letters(std::string_view(text).substr(0, line)).letters + "_" +
         map_letters(std::string_view(text).substr(line + 1)).letters;
}

// What the parts say, with the sounds that the teacher gave: as they are said,
// and as the word list would have them.
struct HandParts {
  std::vector<std::string> graphemes;
  std::vector<std::vector<Phoneme>> said;
  std::vector<std::vector<Phoneme>> sounds;
};

std::string read_parts(const Inventory& inventory,
                       std::span<const HandUnit> parts, HandParts& result,
                       int& part) {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    result.graphemes.push_back(plain_grapheme(parts[i].grapheme));
    result.said.emplace_back();
    result.sounds.emplace_back();
    if (parts[i].sound.empty()) continue;
    const auto said = read_said_sound(parts[i].sound);
    const auto sound = read_sound(parts[i].sound);
    if (!sound ||
        !is_sound_of_one_grapheme(*sound, parts[i].sound, inventory)) {
      part = static_cast<int>(i);
      const std::string near =
          did_you_mean(parts[i].sound, plain_sound_names()).text;
      return fmt::format("there is no sound named `{}`{}{}", parts[i].sound,
                         near.empty() ? "" : "; ", near);
    }
    result.said.back() = *said;
    result.sounds.back() = *sound;
  }
  return {};
}

// The commonest correspondence of a grapheme.
const Correspondence* usual(const Inventory& inventory,
                            std::string_view grapheme) {
  const Correspondence* best = nullptr;
  for (const CorrespondenceId id :
       inventory.beginning_with(grapheme.empty() ? '\0' : grapheme.front())) {
    if (inventory[id].grapheme() == grapheme &&
        (best == nullptr || inventory[id].cost < best->cost)) {
      best = &inventory[id];
    }
  }
  return best;
}

}  // namespace

HandReading Phonics::read_by_hand(std::string_view word,
                                  std::span<const HandUnit> parts,
                                  const Conventions& conventions) const {
  const std::string given = normalized(word);
  const LetterMap map = map_letters(given);
  if (!map.good) return hand_fault("this is not a word", -1);
  const Inventory& inventory = impl_->lexicon.inventory();

  HandParts hand;
  int part = -1;
  std::string fault = read_parts(inventory, parts, hand, part);
  if (!fault.empty()) return hand_fault(std::move(fault), part);
  const std::vector<std::string_view> views(hand.graphemes.begin(),
                                            hand.graphemes.end());
  const HandPlaces places = place_graphemes(map.letters, views);
  if (!places.fault.empty()) return hand_fault(places.fault, places.part);

  // Where no sounds are given, those of the word list fit best; of several
  // readings the one that the given sounds agree with.
  std::uint16_t stress = 1;
  Segments known;
  int best = -1;
  const Lexicon& spoken = impl_->lexicon_for(conventions);
  for (const WordRecord& record : Impl::known(spoken, map.spelling)) {
    const Segments segments = align_by_hand(
        inventory, map.letters, views, phonemes_of(record.segments, inventory));
    int agreeing = 0;
    for (std::size_t i = 0; i < segments.size(); ++i) {
      agreeing += std::ranges::equal(inventory[segments[i].id].phonemes(),
                                     hand.sounds[i])
                      ? 1
                      : 0;
    }
    if (best >= (segments.empty() ? 0 : agreeing)) continue;
    best = segments.empty() ? 0 : agreeing;
    stress = record.stress;
    known = segments;
  }

  Reading reading;
  reading.word = given;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    Unit unit;
    unit.grapheme = hand.graphemes[i];
    const auto place = places.places[i];
    const std::size_t width =
        unit.grapheme.find('_') == std::string::npos ? unit.grapheme.size() : 1;
    unit.begin = map.begins[place.begin];
    unit.end = map.ends[place.begin + width - 1];
    if (place.split_e >= 0) unit.split_e = map.begins[place.split_e];
    if (!hand.sounds[i].empty()) {
      unit.phonemes = hand.said[i];
      unit.given = true;
    } else if (!known.empty()) {
      const auto p = inventory[known[i].id].phonemes();
      unit.phonemes.assign(p.begin(), p.end());
    } else if (const Correspondence* c = usual(inventory, unit.grapheme)) {
      unit.phonemes.assign(c->phonemes().begin(), c->phonemes().end());
    } else {
      return hand_fault(
          fmt::format("`{0}` is no usual grapheme, so its sound must be given: "
                      "`{0}=/sound/`",
                      unit.grapheme),
          static_cast<int>(i));
    }
    const int id = inventory.find(unit.grapheme, as_listed(unit.phonemes));
    unit.irregular =
        id < 0 || inventory[static_cast<CorrespondenceId>(id)].rare != 0;
    reading.units.push_back(std::move(unit));
  }
  finish_reading(reading, stress, conventions);
  reading.origin = Reading::Origin::by_hand;
  impl_->find_patterns(reading, map, spoken);
  return {std::move(reading), {}, -1};
}

}  // namespace sheaf
