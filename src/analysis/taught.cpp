#include "analysis/taught.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <span>
#include <string_view>

#include "base/shuffle.h"
#include "base/utf8.h"
#include "phonics/word_facts.h"

namespace sheaf {

namespace {

using P = Phoneme;

// Taught from the start.
struct Consonant {
  char letter;
  std::array<P, 2> sounds;
  std::size_t count;
};
constexpr Consonant kFromTheStart[] = {
    {'b', {P::b}, 1},  {'c', {P::k}, 1}, {'d', {P::d}, 1},
    {'f', {P::f}, 1},  {'g', {P::g}, 1}, {'h', {P::hh}, 1},
    {'j', {P::jh}, 1}, {'k', {P::k}, 1}, {'l', {P::l}, 1},
    {'m', {P::m}, 1},  {'n', {P::n}, 1}, {'p', {P::p}, 1},
    {'r', {P::r}, 1},  {'s', {P::s}, 1}, {'t', {P::t}, 1},
    {'v', {P::v}, 1},  {'w', {P::w}, 1}, {'x', {P::k, P::s}, 2},
    {'y', {P::y}, 1},  {'z', {P::z}, 1},
};

bool from_the_start(const Unit& unit) {
  if (unit.grapheme.size() != 1) return false;
  return std::ranges::any_of(kFromTheStart, [&](const Consonant& c) {
    return c.letter == unit.grapheme[0] && c.count == unit.listed.size() &&
           std::equal(unit.listed.begin(), unit.listed.end(), c.sounds.begin());
  });
}

std::vector<P> short_sound(char letter) {
  switch (letter) {
    case 'a':
      return {P::ae};
    case 'e':
      return {P::eh};
    case 'i':
    case 'y':
      return {P::ih};
    case 'o':
      return {P::aa};
    case 'u':
      return {P::ah};
    default:
      return {};
  }
}

// A weak vowel with a consonant behind it in its own syllable: kitten.
bool is_weak_and_closed(const Reading& reading, std::size_t i) {
  const Unit& unit = reading.units[i];
  if (unit.grapheme.size() != 1 || unit.stressed || unit.listed.size() != 1) {
    return false;
  }
  if (unit.listed[0] != P::ax && unit.listed[0] != P::ih) return false;
  if (i + 1 >= reading.units.size()) return false;
  const Unit& next = reading.units[i + 1];
  return !has_vowel(next) && next.syllable == unit.syllable;
}

// The long sounds of a letter that has a weak one at the end of its syllable:
// the e of return, the u of popular.
using Sounds = std::span<const P>;
std::span<const Sounds> long_sounds_of_weak(const Reading& reading,
                                            std::size_t i) {
  static constexpr P kLongE[] = {P::iy}, kLongO[] = {P::ow};
  static constexpr P kLongU[] = {P::uw}, kLongYu[] = {P::y, P::uw};
  static constexpr Sounds kE[] = {kLongE}, kO[] = {kLongO};
  static constexpr Sounds kU[] = {kLongU, kLongYu};
  const Unit& unit = reading.units[i];
  if (unit.grapheme.size() != 1 || unit.stressed || unit.father) return {};
  if (i + 1 >= reading.units.size() ||
      reading.units[i + 1].syllable == unit.syllable) {
    return {};
  }
  const P sound = unit.listed.back();
  const bool one = unit.listed.size() == 1;
  switch (unit.grapheme[0]) {
    case 'e':
      if (one && (sound == P::ih || sound == P::ax)) return kE;
      return {};
    case 'o':
      if (one && sound == P::ax) return kO;
      return {};
    case 'u':
      if (sound == P::ax && (one || unit.listed[0] == P::y)) return kU;
      return {};
    default:
      return {};
  }
}

// The r of fire and hour, in which one hears a vowel that no letter writes.
bool is_r_after_glide(const Reading& reading, std::size_t i) {
  const Unit& unit = reading.units[i];
  if (i == 0 || unit.grapheme != "r" || unit.listed.size() != 1 ||
      unit.listed[0] != P::er) {
    return false;
  }
  const P before = reading.units[i - 1].listed.back();
  if (before != P::ay && before != P::aw) return false;
  // In iron the letters after it say nothing of the sound.
  return i + 1 >= reading.units.size() || reading.units[i + 1].grapheme != "o";
}

}  // namespace

std::uint64_t Taught::key_of(std::string_view grapheme,
                             std::span<const Phoneme> phonemes) {
  std::uint64_t key = text_hash(grapheme);
  for (const Phoneme p : phonemes) {
    const char byte = static_cast<char>(static_cast<int>(p) + 1);
    key = text_hash({&byte, 1}, key);
  }
  return key;
}

Taught Taught::before(int step) const {
  Taught earlier = *this;
  earlier.step_ = step;
  for (std::size_t i = static_cast<std::size_t>(step) + 1; i < steps_.size();
       ++i) {
    for (const std::string& word : steps_[i].sight_words) {
      earlier.sight_words_.erase(word);
    }
  }
  return earlier;
}

int Taught::stage(PatternId pattern) const {
  const int stage =
      pattern < pattern_stages_.size() ? pattern_stages_[pattern] : kNever;
  return stage == kNever ? -1 : stage;
}

std::span<const std::string> Taught::key_words(int stage) const {
  if (stage == 0) return key_words_;
  const auto step = static_cast<std::size_t>(stage - 1);
  if (stage < 0 || step >= steps_.size()) return {};
  return steps_[step].key_words;
}

int Taught::stage_of(std::string_view grapheme,
                     std::span<const Phoneme> phonemes) const {
  const std::uint64_t key = key_of(grapheme, phonemes);
  const auto found = std::ranges::lower_bound(entries_, key, {}, &Entry::key);
  return found == entries_.end() || found->key != key ? kNever : found->stage;
}

int Taught::stage_of(const Reading& reading, std::size_t i,
                     int drop_stage) const {
  const Unit& unit = reading.units[i];
  if (from_the_start(unit) || is_r_after_glide(reading, i)) return 0;
  int stage = unit.father ? kNever : stage_of(unit.grapheme, unit.listed);
  for (const Sounds sound : long_sounds_of_weak(reading, i)) {
    stage = std::min(stage, stage_of(unit.grapheme, sound));
  }
  if (is_weak_and_closed(reading, i)) {
    const char letter = unit.grapheme[0];
    stage = std::min(stage, stage_of(unit.grapheme, short_sound(letter)));
  }
  if (drop_stage < kNever) {
    const std::string whole = unit.grapheme + "e";
    const std::string split = unit.grapheme + "_e";
    const int base =
        std::min(stage_of(whole, unit.listed), stage_of(split, unit.listed));
    stage = std::min(stage, std::max(base, drop_stage));
  }
  return stage;
}

// When the pattern of an ending before which this word's base drops its e is
// taught.
int Taught::drop_stage_of(const Reading& reading) const {
  int drop_stage = kNever;
  for (const PatternPlace& place : reading.places) {
    if (std::ranges::find(drops_, place.pattern) != drops_.end()) {
      drop_stage = std::min(drop_stage, pattern_stages_[place.pattern]);
    }
  }
  return drop_stage;
}

bool Taught::is_taught(const Reading& reading, std::size_t unit) const {
  return !known_ ||
         stage_of(reading, unit, drop_stage_of(reading)) <= step_ + 1;
}

WordStanding Taught::standing(const Reading& reading) const {
  WordStanding standing;
  if (!known_) return standing;
  const int drop_stage = drop_stage_of(reading);
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    const int stage = stage_of(reading, i, drop_stage);
    if (stage <= step_ + 1) {
      const Unit& unit = reading.units[i];
      if (standing.weak_unit < 0 &&
          (is_weak_and_closed(reading, i) ||
           !long_sounds_of_weak(reading, i).empty()) &&
          stage_of(unit.grapheme, unit.listed) > step_ + 1) {
        standing.weak_unit = static_cast<int>(i);
      }
      continue;
    }
    standing.weak_unit = -1;
    standing.kind = WordStanding::Kind::not_yet;
    standing.unit = static_cast<int>(i);
    standing.step = stage == kNever ? -1 : stage - 1;
    return standing;
  }
  return standing;
}

bool Taught::may_be_decodable(const Reading& reading) const {
  if (!known_) return true;
  int drop_stage = kNever;
  for (const PatternId drop : drops_) {
    drop_stage = std::min(drop_stage, pattern_stages_[drop]);
  }
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    if (stage_of(reading, i, drop_stage) > step_ + 1) return false;
  }
  return true;
}

bool Taught::may_be_taught(std::string_view grapheme) const {
  if (!known_) return true;
  const bool from_the_start =
      grapheme.size() == 1 &&
      std::ranges::find(kFromTheStart, grapheme[0], &Consonant::letter) !=
          std::end(kFromTheStart);
  const auto is_taught = [&](std::string_view one) {
    const auto found = grapheme_stages_.find(one);
    return found != grapheme_stages_.end() && found->second <= step_ + 1;
  };
  if (from_the_start || is_taught(grapheme)) return true;
  // The graphemes of a base without its e.
  return !drops_.empty() && (is_taught(std::string(grapheme) + "e") ||
                             is_taught(std::string(grapheme) + "_e"));
}

std::vector<int> Taught::due_steps() const {
  std::vector<int> due;
  for (const int weeks : review_weeks_) {
    if (step_ - weeks >= 0) due.push_back(step_ - weeks);
  }
  return due;
}

bool Taught::is_sight_word(std::string_view word) const {
  return sight_words_.contains(lower_case(word));
}

std::string step_name(const Taught::Step& step) {
  if (!step.name.empty()) {
    return fmt::format("step {} ({})", step.number, step.name);
  }
  return fmt::format("step {}", step.number);
}

}  // namespace sheaf
