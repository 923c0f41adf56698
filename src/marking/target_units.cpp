#include "marking/target_units.h"

#include <algorithm>

#include "base/utf8.h"
#include "marking/spelling_fit.h"
#include "phonics/ending_rules.h"
#include "phonics/letter_map.h"
#include "phonics/phonics.h"

namespace sheaf {
namespace {

using P = Phoneme;

// Words that many say in a way that the word list does not have, and the
// grapheme that it is about. From memory of dictionaries of American and
// British English.
struct OtherSaying {
  std::string_view word;
  std::string_view grapheme;
  P sound;
};
constexpr std::array kOtherSayings = {
    OtherSaying{"again", "ai", P::ey},   OtherSaying{"because", "au", P::ah},
    OtherSaying{"because", "au", P::aa}, OtherSaying{"been", "ee", P::iy},
    OtherSaying{"from", "o", P::aa},     OtherSaying{"of", "o", P::aa},
    OtherSaying{"want", "a", P::aa},     OtherSaying{"was", "a", P::ah},
    OtherSaying{"was", "a", P::aa},      OtherSaying{"what", "a", P::aa},
    OtherSaying{"what", "a", P::ah},     OtherSaying{"says", "ay", P::ey},
};

TargetUnit::Saying saying_of(std::span<const P> sounds, bool by_accent) {
  TargetUnit::Saying saying;
  saying.by_accent = by_accent;
  for (const P p : sounds) {
    if (saying.count < saying.phonemes.size()) {
      saying.phonemes[saying.count++] = p;
    }
  }
  return saying;
}

bool is_rhotic(Accent accent) {
  return accent == Accent::general_american || accent == Accent::scottish;
}

// Where r is not said after a vowel, a vowel with r and one without sound
// alike (sister, sista; saw, sor); where bath has the vowel of father, its a
// can be spelled ar.
void add_accent(TargetUnit& unit, Accent accent) {
  if (is_rhotic(accent)) return;
  const auto sound = unit.sound();
  const auto add = [&](std::initializer_list<P> sounds) {
    unit.sayings.push_back(
        saying_of(std::span(sounds.begin(), sounds.size()), true));
  };
  if (sound.size() == 2 && sound[1] == P::r &&
      (sound[0] == P::aa || sound[0] == P::ao)) {
    add({sound[0]});
  }
  if (sound.size() != 1) return;
  switch (sound[0]) {
    case P::er:
      if (!unit.stressed) add({P::ax});
      break;
    case P::ax:
      add({P::er});
      break;
    case P::ao:
      add({P::ao, P::r});
      break;
    case P::aa:
      add({P::aa, P::r});
      break;
    case P::ae:
      if (accent == Accent::british) {
        add({P::aa, P::r});
        add({P::aa});
      }
      break;
    default:
      break;
  }
}

TargetUnit unit_of(std::string_view grapheme, std::span<const P> sounds,
                   bool stressed, const LearnerSpeech& speech) {
  TargetUnit made;
  made.grapheme = grapheme;
  made.split = grapheme.size() == 3 && grapheme[1] == '_';
  made.vowel = !grapheme.empty() && is_vowel_sign(grapheme[0]) &&
               std::ranges::any_of(sounds, is_vowel);
  made.stressed = stressed;
  made.sayings.push_back(saying_of(sounds, false));
  add_accent(made, speech.accent);
  return made;
}

void add_other_sayings(std::string_view word, std::vector<TargetUnit>& units) {
  for (const OtherSaying& row : kOtherSayings) {
    if (row.word != word) continue;
    for (TargetUnit& unit : units) {
      if (unit.grapheme == row.grapheme) {
        unit.sayings.push_back(saying_of(std::span(&row.sound, 1), false));
      }
    }
  }
}

// A hyphen or an apostrophe, which is in no unit, may stand before the e.
void mark_split_ends(const Reading& reading, std::vector<TargetUnit>& units) {
  for (const Unit& split : reading.units) {
    if (!split.is_split()) continue;
    TargetUnit* last = nullptr;
    for (std::size_t i = 0; i < units.size(); ++i) {
      const Unit& other = reading.units[i];
      if (!other.is_split() && other.begin > split.begin &&
          other.end <= split.split_e) {
        last = &units[i];
      }
    }
    if (last != nullptr) last->before_split_e = true;
  }
}

// Finds the last unit before an ending of `length` letters; -1 if the ending
// does not begin at a unit.
int unit_before_ending(const std::vector<TargetUnit>& units,
                       std::size_t length) {
  std::size_t seen = 0;
  for (std::size_t i = units.size(); i-- > 0;) {
    if (seen == length) return static_cast<int>(i);
    if (units[i].split) return -1;
    seen += units[i].grapheme.size();
  }
  return -1;
}

EndingAnalysis ending_of(std::string_view letters, const WordTest& is_word) {
  const auto rank = [](bool good) { return good ? 0 : -1; };
  if (is_word) {
    return take_off_ending(letters, [&](const EndingAnalysis& a) {
      return rank(a.base.size() > 1 && is_word(a.base));
    });
  }
  return take_off_ending(letters, [&](const EndingAnalysis& a) {
    return rank((a.ending == Ending::ed || a.ending == Ending::ing) &&
                (a.joint != Joint::doubled || doubles_its_end(a.base)));
  });
}

// Gives back which ending the word has.
Ending mark_ending(std::string_view letters, const WordTest& is_word,
                   std::vector<TargetUnit>& units) {
  if (units.empty()) return Ending::none;
  if (units.back().grapheme == "ed") units.back().ending_ed = true;
  const EndingAnalysis ending = ending_of(letters, is_word);
  if (!ending) return Ending::none;
  const std::string_view text = ending_text(ending.ending);
  int at = unit_before_ending(units, text.size());
  if (ending.joint == Joint::y_to_i) {
    // The ending may be inside the grapheme that i belongs to (ie of babies).
    for (std::size_t i = units.size(); i-- > 0;) {
      if (units[i].grapheme[0] == 'i') {
        units[i].y_to_i = true;
        break;
      }
    }
  }
  if (at < 0) return ending.ending;
  TargetUnit& last = units[static_cast<std::size_t>(at)];
  last.before_ending = true;
  if (ending.joint == Joint::doubled && last.grapheme.size() == 2 &&
      last.grapheme[0] == last.grapheme[1]) {
    last.doubled_for_ending = true;
  }
  if (ending.joint == Joint::dropped_e) last.dropped_e_before_ending = true;
  if (ending.ending == Ending::ed && units.back().grapheme == "d") {
    units.back().ending_ed = true;
  }
  return ending.ending;
}

bool is_one_consonant(const TargetUnit& unit) {
  return unit.sound().size() == 1 && !is_vowel(unit.sound()[0]);
}

bool is_nasal(const TargetUnit& unit) {
  if (unit.sound().empty()) return false;
  const P first = unit.sound()[0];
  return first == P::m || first == P::n || first == P::ng;
}

// Where each unit stands, and which the learner may not hear. `ending` is what
// the word ends in, as far as that is known.
void mark_speech(const LearnerSpeech& speech, Ending ending,
                 std::vector<TargetUnit>& units) {
  if (units.empty()) return;
  units.front().begins_word = true;
  units.back().ends_word = true;
  for (std::size_t i = 0; i + 1 < units.size(); ++i) {
    units[i].before_nasal = is_nasal(units[i + 1]);
  }
  TargetUnit& last = units.back();
  const bool ends_in_s = ending == Ending::s || ending == Ending::es ||
                         ending == Ending::possessive;
  if (last.ending_ed) {
    last.unheard = speech.no_ed && last.sound().size() == 1;
  } else if (ends_in_s) {
    last.unheard = speech.no_s && last.sound().size() == 1;
  } else if (units.size() > 1 && is_one_consonant(last) &&
             is_one_consonant(units[units.size() - 2])) {
    last.unheard = speech.no_cluster_end;
  }
  TargetUnit& first = units.front();
  const auto begins = first.sound();
  if (begins.empty()) return;
  if (begins[0] == P::hh) first.unheard = speech.no_h;
  first.vowel_before =
      speech.vowel_before_s && begins[0] == P::s && units.size() > 1 &&
      (begins.size() > 1 ? !is_vowel(begins[1]) : is_one_consonant(units[1]));
}

}  // namespace

std::vector<TargetUnit> target_units(const Reading& reading,
                                     const LearnerSpeech& speech,
                                     const WordTest& is_word) {
  std::vector<TargetUnit> units;
  units.reserve(reading.units.size());
  for (const Unit& unit : reading.units) {
    const auto& sounds = unit.listed.empty() ? unit.phonemes : unit.listed;
    units.push_back(unit_of(unit.grapheme, sounds, unit.stressed, speech));
  }
  const LetterMap map = map_letters(reading.word);
  add_other_sayings(map.letters, units);
  mark_split_ends(reading, units);
  const Ending ending = mark_ending(map.letters, is_word, units);
  // The word list knows better than letters alone: dinner is no form of din.
  for (std::size_t i = 0; i < units.size(); ++i) {
    const std::string& g = units[i].grapheme;
    units[i].doubled_for_ending =
        static_cast<int>(i) == reading.doubled && g.size() == 2 && g[0] == g[1];
    // Nor is baby one of babe.
    if (static_cast<int>(i) != reading.dropped) {
      units[i].dropped_e_before_ending = false;
    }
  }
  mark_speech(speech, ending, units);
  return units;
}

std::vector<TargetUnit> target_units(const ListedWord& word,
                                     const Inventory& inventory,
                                     const LearnerSpeech& speech) {
  std::vector<TargetUnit> units;
  units.reserve(word.segments.size());
  unsigned syllable = 0;
  for (const Segment& segment : word.segments) {
    const Correspondence& c = inventory[segment.id];
    const bool stressed = (word.stress >> std::min(syllable, 15U) & 1U) != 0;
    units.push_back(unit_of(c.grapheme(), c.phonemes(), stressed, speech));
    syllable +=
        static_cast<unsigned>(std::ranges::count_if(c.phonemes(), is_vowel));
  }
  for (const Segment& split : word.segments) {
    if (split.split_e < 0) continue;
    for (std::size_t i = 0; i < units.size(); ++i) {
      const Segment& s = word.segments[i];
      if (s.begin > split.begin &&
          s.begin + inventory[s.id].width() == split.split_e) {
        units[i].before_split_e = true;
      }
    }
  }
  add_other_sayings(word.spelling, units);
  if (!units.empty() && units.back().grapheme == "ed") {
    units.back().ending_ed = true;
  }
  mark_speech(speech, Ending::none, units);
  return units;
}

WordTest known_to_learners(const Phonics& phonics) {
  constexpr int kLargestList = 50;
  return [&phonics](std::string_view word) {
    const auto info = phonics.info(word);
    return info && !info->name &&
           (info->everyday || (info->tier > 0 && info->tier <= kLargestList));
  };
}

}  // namespace sheaf
