#pragma once

#include <vector>

#include "sheets/sheet.h"

namespace sheaf {

/// The first day with a dictation: what was found on day 1 is spelled on day 2
/// (common practice, no source).
inline constexpr int kFirstDictationDay = 2;

/// What is dictated on the days between the first and the check: a few words
/// of the list, from the third day on a sentence that was read before. All of
/// it was practised; what is new is kept for the check. Points into the lesson.
struct DayDictation {
  int day = 2;
  std::vector<const AnalyzedWord*> words;
  const AnalyzedSentence* sentence = nullptr;  ///< null where there is none
};

/// One for each such day of a week with so many days, in order; none where the
/// week has fewer than three days or the list has no word with the pattern.
std::vector<DayDictation> short_dictations(const AnalyzedLesson& lesson,
                                           int days, int words_a_day);

}  // namespace sheaf
