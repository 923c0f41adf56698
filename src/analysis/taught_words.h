#pragma once

#include <cstddef>
#include <vector>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// Common words of the patterns that were taught before, to be read among the
/// week's: of those due for review first, then of the latest, a word of each in
/// turn. All can be read, none has the week's pattern, is on its list or is
/// blocked by the teacher. Which words come is decided by the lesson's seed, so
/// other ones each week. Empty where nothing is known of before.
std::vector<AnalyzedWord> taught_words(const AnalyzedLesson& lesson,
                                       std::size_t most);

}  // namespace sheaf
