#pragma once

#include <string_view>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "driver/workspace.h"
#include "planning/word_search.h"

namespace sheaf {

struct OfferedWord {
  PatternId pattern = 0;
  FoundWord word;
};

/// Whether words that stand in the text already are left out.
enum class LeaveOut { nothing, there };

/// Words for each of the patterns that a lesson's text names now, the best
/// first: they have it and, as far as `lesson` says what was taught, can be
/// read. `lesson` is the newest that could be read, and may be null.
std::vector<OfferedWord> words_for(std::string_view text,
                                   const AnalyzedLesson* lesson,
                                   Workspace& ground, std::size_t each,
                                   LeaveOut leave_out);

}  // namespace sheaf
