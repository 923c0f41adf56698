#pragma once

#include <string>
#include <vector>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// Work with sounds alone, without letters: words to put together from their
/// sounds, to take apart, and to turn into another word by one sound.

/// A word that children know, as its sounds: one for each sound box.
struct EarWord {
  std::string word;
  std::vector<std::vector<Phoneme>> sounds;
  bool of_week = false;  ///< it has what the lesson is about
};

enum class EarChange { add, leave_out, first, last, middle };

/// One word made of another by a sound: in /ch/ chin, shout less /sh/ out,
/// ship with /ch/ for /sh/.
struct EarSwap {
  EarChange change = EarChange::add;
  EarWord from, to;
  std::vector<Phoneme> out;  ///< empty where one is added
  std::vector<Phoneme> in;   ///< empty where one is left out
  bool at_end = false;       ///< of an added or left out sound
};

struct EarDay {
  std::vector<EarWord> together, apart;
  std::vector<EarSwap> swaps;
};

/// So many items of each kind for each day, growing harder: longer words from
/// day to day, a sound added, left out, changed at the front, at the end, in
/// the middle (common practice, no source). Only sounds of this week's
/// patterns, of those taught before and of single consonants; about two of
/// three words have what the lesson is about. No word is asked twice for the
/// same thing. Words are the lesson's and such as children know before seven.
std::vector<EarDay> ear_work(const AnalyzedLesson& lesson, int days, int items);

struct SheetInput;
/// The same for the days of a sheet's week, worked out once a packet.
const std::vector<EarDay>& ear_days(const SheetInput& in, int items);

}  // namespace sheaf
