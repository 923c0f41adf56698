#include "marking/attempt_causes.h"

#include <algorithm>
#include <array>

#include "marking/letter_fit.h"
#include "marking/sound_distance.h"

namespace sheaf {
namespace {

using Kind = AlignedGrapheme::Kind;
using P = Phoneme;

// Letters that are another one turned or mirrored.
constexpr std::array<std::string_view, 8> kTurned = {"bd", "bp", "dq", "pq",
                                                     "nu", "mw", "hn", "tf"};

bool is_turned(std::string_view a, std::string_view b) {
  if (a.size() != 1 || b.size() != 1 || a == b) return false;
  return std::ranges::any_of(kTurned, [&](std::string_view pair) {
    return pair.find(a[0]) != std::string_view::npos &&
           pair.find(b[0]) != std::string_view::npos;
  });
}

GraphemeResult result_of(Kind kind) {
  switch (kind) {
    case Kind::exact:
      return GraphemeResult::correct;
    case Kind::plausible:
      return GraphemeResult::plausible;
    case Kind::wrong:
      return GraphemeResult::wrong;
    case Kind::missing:
      return GraphemeResult::missing;
    case Kind::moved:
      return GraphemeResult::moved;
  }
  return GraphemeResult::missing;
}

bool is_short(const TargetUnit& unit) {
  const auto sound = unit.sound();
  if (sound.size() != 1 || sound[0] == P::ax) return false;
  return is_short_vowel(sound[0]) ||
         (sound[0] == P::ao && unit.grapheme == "o");
}

// Its letter says its name.
bool is_long(const TargetUnit& unit) {
  const auto sound = unit.sound();
  if (sound.empty()) return false;
  switch (unit.grapheme[0]) {
    case 'a':
      return sound[0] == P::ey;
    case 'e':
      return sound[0] == P::iy;
    case 'i':
    case 'y':
      return sound[0] == P::ay;
    case 'o':
      return sound[0] == P::ow;
    case 'u':
      return sound.back() == P::uw;
    default:
      return false;
  }
}

// The target's letters, and where unit `index` begins in them.
std::size_t place_in_word(std::span<const TargetUnit> target, std::size_t index,
                          std::string& letters) {
  std::size_t place = 0;
  for (std::size_t i = 0; i < target.size(); ++i) {
    if (i == index) place = letters.size();
    letters +=
        target[i].split ? target[i].grapheme.substr(0, 1) : target[i].grapheme;
    if (target[i].before_split_e) letters += 'e';
  }
  return place;
}

bool stands_open_at(std::string_view letters, std::size_t at) {
  return stands_open({.letters = letters, .begin = at, .end = at + 1});
}

// The vowel right before unit `index` is written as in the target, and reads
// otherwise all the same.
bool changes_vowel(const LaidAttempt& attempt, std::size_t index) {
  if (index == 0 || attempt.target[index].vowel) return false;
  const AlignedGrapheme& vowel = attempt.alignment.units[index - 1];
  return vowel.kind == Kind::exact &&
         vowel_reads_otherwise(attempt.target, index - 1,
                               attempt.written.letters(), vowel.begin);
}

bool is_letter(char c) { return c >= 'a' && c <= 'z'; }

bool lacks_vowel_letter(const TargetUnit& unit, std::string_view span) {
  return std::ranges::any_of(unit.sound(), is_vowel) && !span.empty() &&
         std::ranges::all_of(span, is_consonant_letter) &&
         std::ranges::none_of(span, is_vowel_sign);
}

Cause cause_of_plausible(const LaidAttempt& attempt, std::size_t index,
                         std::string_view span) {
  const TargetUnit& unit = attempt.target[index];
  const AlignedGrapheme& found = attempt.alignment.units[index];
  if (found.by_speech) return Cause::own_speech;
  if (lacks_vowel_letter(unit, span)) return Cause::no_vowel;
  if (unit.ending_ed) return Cause::ending_by_sound;
  if (unit.doubled_for_ending && span.size() == 1) return Cause::doubling;
  if (unit.y_to_i && span.starts_with('y')) return Cause::y_to_i;
  if (changes_vowel(attempt, index)) {
    return unit.dropped_e_before_ending && is_doubled_form(span, unit.grapheme)
               ? Cause::doubling
               : Cause::changes_vowel;
  }
  return found.fit == Fit::usual ? Cause::other_spelling : Cause::not_used_here;
}

Cause cause_of_wrong(const LaidAttempt& attempt, std::size_t index,
                     std::string_view span) {
  const TargetUnit& unit = attempt.target[index];
  const AlignedGrapheme& found = attempt.alignment.units[index];
  if (is_turned(span, unit.grapheme)) return Cause::turned_letter;
  if (unit.y_to_i && span.starts_with('y')) return Cause::y_to_i;
  if (lacks_vowel_letter(unit, span)) return Cause::no_vowel;
  if (attempt.written.best_fit(unit, found.begin, found.end) != Fit::never) {
    return Cause::reads_otherwise;
  }
  return attempt.written.distance(unit, found.begin, found.end) <= kNearSound
             ? Cause::near_sound
             : Cause::sound_lost;
}

}  // namespace

bool is_doubled_form(std::string_view letters, std::string_view grapheme) {
  if (letters.size() != 2 || grapheme.size() != 1) return false;
  if (letters == "ck") return grapheme == "k" || grapheme == "c";
  return letters[0] == grapheme[0] && letters[1] == grapheme[0];
}

bool vowel_reads_otherwise(std::span<const TargetUnit> target, std::size_t unit,
                           std::string_view letters, std::size_t at) {
  const TargetUnit& vowel = target[unit];
  if (!vowel.vowel || !vowel.stressed ||
      (vowel.grapheme.size() != 1 && !vowel.split)) {
    return false;
  }
  const bool is_short_here = is_short(vowel);
  if (!is_short_here && !is_long(vowel)) return false;
  std::string meant;
  const std::size_t place = place_in_word(target, unit, meant);
  const bool meant_open = stands_open_at(meant, place);
  // A vowel that its own word's letters would let say otherwise tells nothing.
  if (meant_open == is_short_here) return false;
  return stands_open_at(letters, at) != meant_open;
}

Judged judge_unit(const LaidAttempt& attempt, std::size_t index) {
  const TargetUnit& unit = attempt.target[index];
  const AlignedGrapheme& found = attempt.alignment.units[index];
  const std::string_view letters = attempt.written.letters();
  const std::string_view span =
      letters.substr(found.begin, found.end - found.begin);
  Judged judged{result_of(found.kind), Cause::none};
  switch (found.kind) {
    case Kind::exact:
      break;
    case Kind::plausible:
      judged.cause = cause_of_plausible(attempt, index, span);
      break;
    case Kind::wrong:
      judged.cause = cause_of_wrong(attempt, index, span);
      break;
    case Kind::missing:
      if (unit.unheard && !letters.empty()) {
        return {GraphemeResult::plausible, Cause::own_speech};
      }
      // Figures and signs alone are no beats.
      judged.cause = unit.vowel && std::ranges::any_of(letters, is_letter)
                         ? Cause::no_vowel
                         : Cause::left_out;
      break;
    case Kind::moved:
      judged.cause = Cause::order;
      break;
  }
  // One letter for two before an ending, or two for one, says the sound, but
  // makes the vowel before it another: hoping and hopping are two words, and
  // stopt is none.
  if (judged.cause == Cause::doubling && found.end < letters.size() &&
      is_vowel_sign(letters[found.end])) {
    judged.result = GraphemeResult::wrong;
  }
  return judged;
}

Cause cause_of_extra(const LaidAttempt& attempt, std::size_t at,
                     std::size_t before) {
  const std::string_view letters = attempt.written.letters();
  if (before == 0 && at == 0 && !attempt.target.empty() &&
      attempt.target[0].vowel_before && is_vowel_sign(letters[at])) {
    return Cause::own_speech;
  }
  if (letters[at] != 'e' || before == 0) return Cause::extra_letter;
  if (attempt.target[before - 1].dropped_e_before_ending) {
    return Cause::dropped_e;
  }
  // hope for hop, duke for duck.
  for (std::size_t i = before; i-- > 0;) {
    if (!attempt.target[i].vowel) continue;
    const AlignedGrapheme& vowel = attempt.alignment.units[i];
    const bool changed =
        vowel.kind == Kind::exact && vowel.begin < at &&
        vowel_reads_otherwise(attempt.target, i, letters, vowel.begin);
    return changed ? Cause::changes_vowel : Cause::extra_letter;
  }
  return Cause::extra_letter;
}

}  // namespace sheaf
