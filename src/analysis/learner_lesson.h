#pragma once

#include <vector>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// What makes a lesson one learner's own.
struct LearnerNeeds {
  int amount = 0;  ///< words of the list to work on; 0: all
  std::vector<PlacedWord> review_words;
  /// The review words are one learner's: all else, and the code, stay those of
  /// the lesson, so that one script does for a group.
  bool own = false;
};

/// The lesson as a learner works on it: the key words and the first words of
/// each pattern in turn, up to the amount, in the list and in the dictation;
/// the first review words in the warm-up and at the end of the dictation. Its
/// code is another one if its words are. Reports review words that had to be
/// guessed.
AnalyzedLesson lesson_for(const AnalyzedLesson& lesson,
                          const LearnerNeeds& needs, Diagnostics& diagnostics);

/// One learner's lesson and the learner's code.
struct LearnersLesson {
  std::string learner;
  const AnalyzedLesson* lesson = nullptr;
};

/// The lesson of the teacher's pages for learners who differ in their own
/// review words alone. `base` is the same without any.
AnalyzedLesson shared_lesson(AnalyzedLesson base,
                             const std::vector<LearnersLesson>& learners);

}  // namespace sheaf
