#pragma once

#include <vector>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// Which letters of a word are printed where the learner writes the rest: what
/// comes between a word that is done and one that is written alone.

/// One flag for each unit of the reading: all but those of the pattern, so that
/// the learner writes what the week is about. Of a word whose pattern is no
/// grapheme (closed syllables, compounds) the first part, or the first
/// grapheme of a short word. Never all of them; none for a word of one unit.
std::vector<bool> half_given(const AnalyzedWord& word);

/// Of those the first consonant, or what comes first where there is none.
std::vector<bool> one_given(const AnalyzedWord& word);

/// The same by the bytes of the word, split e included; signs such as an
/// apostrophe are given.
std::vector<bool> given_bytes(const AnalyzedWord& word,
                              const std::vector<bool>& units);

}  // namespace sheaf
