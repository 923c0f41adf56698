#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// A column of the sort of -ed by its sounds.
struct EdColumn {
  std::string sound;     ///< as the lesson writes it: "/t/", "/id/"
  std::string key_word;  ///< jumped, sailed or landed
  /// After which sounds -ed says so (common practice, no source; see
  /// pattern_texts.tsv).
  std::string_view reason;
  std::vector<const AnalyzedWord*> words;
};

/// The words of a lesson on -ed, and its words to sort, by what the ending
/// says: /t/, /d/ and /id/, as far as there are words. Empty where the lesson
/// is about anything else too. Points into the lesson.
std::vector<EdColumn> ed_columns(const AnalyzedLesson& lesson);

/// The sound before -ed, as the lesson writes it: "/p/" of jumped.
std::string sound_before_ed(const AnalyzedLesson& lesson,
                            const AnalyzedWord& word);

}  // namespace sheaf
