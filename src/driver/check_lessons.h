#pragma once

#include <string>
#include <vector>

#include "driver/set_words.h"
#include "driver/taught_sets.h"
#include "marking/check_plan.h"

namespace sheaf {

/// A check of old patterns for learners who were taught the same.
struct CheckLesson {
  std::string group;  ///< of the class; empty: none
  std::vector<LearnerCode> codes;
  std::vector<PatternId> patterns;  ///< in the order of their turns
  /// Whose turn it was, with fewer than three words to ask.
  std::vector<PatternId> without_words;
  std::string text;  ///< the lesson file, with no learner's code in it
  std::string name;  ///< of the file, without its ending
};

/// A check for each set of learners that has something to check (see
/// `check_turns`) and six words for it, with names that differ. Words are new
/// to all of them; where a pattern has too few of those, words that they
/// practised fill up, which the file says. `words` belongs to `sets` one by
/// one; `about` is what the comment at the head of each file ends with.
std::vector<CheckLesson> check_lessons(
    const std::vector<TaughtSet>& sets, std::vector<SetWords>& words,
    const std::vector<LearnerProgress>& learners,
    const PatternCatalogue& catalogue, const Date& week,
    const CheckRules& rules, std::string_view about);

}  // namespace sheaf
