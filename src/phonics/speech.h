#pragma once

#include "phonics/conventions.h"

namespace sheaf {

class Inventory;
struct WordRecord;

/// Whose words are meant: all that the phonemes of a record depend on, and so
/// what patterns are judged on. How an accent says them then (its r, its short
/// o) is `apply_accent`.
struct Speech {
  Accent accent = Accent::general_american;
  bool bath_ah = false;   ///< bath, grass, dance with the vowel of father
  bool yod_keep = false;  ///< tune, new, due with /y/

  friend bool operator==(const Speech&, const Speech&) = default;
};
inline Speech speech_of(const Conventions& conventions) {
  return {conventions.accent, conventions.bath_ah, conventions.yod_keep};
}

/// Gives a record that the accent has the a of bath and the y of tune, as its
/// speakers have them. From memory of the accents' common descriptions:
/// - what `WordRecord::bath` marks has the vowel of father, but before n and m
///   not in Australia (dance), a few words apart (can't, aunt);
/// - y stands before long u where `keeps_yod` says so.
/// Graphemes for which the word list has no such correspondence stay.
void say_as(const Speech& speech, const Inventory& inventory,
            WordRecord& record);

}  // namespace sheaf
