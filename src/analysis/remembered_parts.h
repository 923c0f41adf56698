#pragma once

#include <string>
#include <vector>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// A word that is learned by sight, with the parts of it that do not say what
/// learners expect by now.
struct RememberedWord {
  AnalyzedWord word;
  /// For each of its units whether it must be remembered.
  std::vector<bool> parts;

  /// Where nothing is to be remembered, the word can be read like any other.
  bool any() const;
  /// Whether the letter at this byte must be remembered.
  bool is_remembered(std::size_t byte) const;
};

/// What a word's parts are measured by: what the group was taught, where
/// anything says so. Else the letters' usual sounds, the common consonant teams
/// and the commonest vowel teams count as known, and what the lesson teaches
/// (common practice, no source).
Taught taught_or_usual(const AnalyzedLesson& lesson);

/// Which units of a word must be remembered: those that say what the grapheme
/// seldom says (`Unit::irregular`), those that were not taught yet, and the r
/// of our and hour. A doubled consonant that says what the single one says is
/// no surprise once any double was taught. A silent letter belongs to the
/// grapheme beside it, so all of the tw of two is to be remembered, as the
/// curriculum has kn, gn and wr.
std::vector<bool> parts_to_remember(const Reading& reading,
                                    const Taught& taught);

/// The words that a lesson has learners know by sight: its own, those of its
/// step of the sequence, then those of earlier steps, the latest first, each
/// once. Of earlier ones only those with something to remember; `recent` of
/// the result counts those that are no earlier ones.
struct RememberedWords {
  std::vector<RememberedWord> words;
  std::size_t recent = 0;
};
RememberedWords remembered_words(const AnalyzedLesson& lesson);

}  // namespace sheaf
