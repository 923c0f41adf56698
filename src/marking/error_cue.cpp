// What a teacher says to a learner about an error: a sentence for each cause.
// It leads to the sound or the rule and never shows the wrong spelling. Common
// practice, no source; the wording is ours.

#include <fmt/format.h>

#include "marking/likely_errors.h"
#include "marking/written_word.h"
#include "phonics/endings.h"
#include "phonics/notation.h"

namespace sheaf {
namespace {

// The sound as the word has it: the o of pond, not the a of father.
std::string sound_of(const Reading& word, std::size_t unit,
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

std::string_view place_of(std::size_t unit, std::size_t count) {
  if (unit == 0) return "first";
  return unit + 1 == count ? "last" : "middle";
}

bool has_silent_letter(std::string_view grapheme) {
  constexpr std::string_view kSilent[] = {"kn", "wr", "gn", "mb", "st", "bt",
                                          "mn", "rh", "wh", "gh", "ps", "gu"};
  for (const std::string_view one : kSilent) {
    if (one == grapheme) return true;
  }
  return false;
}

// The vowel letter before a doubled consonant is short: hop, hopping.
std::string doubling_cue(const Reading& word, std::size_t unit) {
  std::string base;
  for (std::size_t i = 0; i < unit; ++i) base += word.units[i].grapheme;
  base += word.units[unit].grapheme.substr(0, 1);
  return fmt::format(
      "“Say {0}, then {1}. One short vowel, one last letter: double it before "
      "the ending.”",
      base, word.word);
}

std::string spelling_cue(const Reading& word, const Unit& unit,
                         const std::string& sound) {
  if (has_silent_letter(unit.grapheme)) {
    return fmt::format(
        "“I can hear {}. {} has a letter that says nothing. Which?” Show {}.",
        sound, word.word, unit.grapheme);
  }
  if (unit.grapheme.size() == 2 && unit.grapheme[0] == unit.grapheme[1] &&
      unit.phonemes.size() == 1 && !is_vowel(unit.phonemes[0])) {
    return fmt::format(
        "“The vowel before {} is short. What do we do with the "
        "letter behind it?” Show {}.",
        sound, unit.grapheme);
  }
  return fmt::format(
      "“I can hear {}. That is one way to write it. How is it written in "
      "{}?” Show {}.",
      sound, word.word, unit.grapheme);
}

}  // namespace

std::string error_cue(const Reading& word, std::size_t index, Cause cause,
                      std::string_view written,
                      const Conventions& conventions) {
  if (index >= word.units.size()) {
    return fmt::format(
        "“Something was left out when {} was made shorter. What stands in its "
        "place?” Show the apostrophe.",
        word.word);
  }
  const Unit& unit = word.units[index];
  const std::string sound = sound_of(word, index, conventions);
  const std::string_view place = place_of(index, word.units.size());
  switch (cause) {
    case Cause::none:
      return {};
    case Cause::other_spelling:
    case Cause::not_used_here:
      return spelling_cue(word, unit, sound);
    case Cause::reads_otherwise:
      return fmt::format(
          "“Read me what you wrote.” Wait. “We want {}. What makes it say "
          "that?” Show {}.",
          sound, unit.grapheme);
    case Cause::near_sound:
    case Cause::own_speech:
      return fmt::format(
          "“Watch my mouth: {}. Say it slowly. What is the {} sound?” {}.",
          word.word, place, sound);
    case Cause::sound_lost:
      return fmt::format("“Say {} and tap its sounds. What is the {} one?” {}.",
                         word.word, place, sound);
    case Cause::left_out:
      return fmt::format(
          "“Say {} and tap its sounds: {} taps. Touch a letter for each. "
          "Which has none?” {}.",
          word.word, word.boxes(), sound);
    case Cause::order:
      return fmt::format(
          "“Say {} and point to each sound as you say it. What comes first, "
          "what next?” Show {}.",
          word.word, unit.grapheme);
    case Cause::turned_letter:
      return fmt::format(
          "“Say {}. Write its letter in the air. Which way does it face?” {}.",
          sound, unit.grapheme);
    case Cause::ending_by_sound:
      return fmt::format(
          "“It has happened already. How do we write that ending, whatever it "
          "sounds like?” Show {}.",
          unit.grapheme);
    case Cause::doubling:
      return doubling_cue(word, index);
    case Cause::dropped_e:
      return fmt::format(
          "“Which word is {} made from? What does its e do when the ending "
          "begins with a vowel?”",
          word.word);
    case Cause::y_to_i:
      return fmt::format(
          "“Which word is {} made from? What happens to its y before the "
          "ending?”",
          word.word);
    case Cause::extra_letter:
      return fmt::format(
          "“Say {} and touch a grapheme for each sound. Is there a letter too "
          "many?”",
          word.word);
  }
  return std::string(written);
}

}  // namespace sheaf
