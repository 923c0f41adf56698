#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "input/lesson.h"

namespace sheaf {

/// Sentences and passages as they stand in a lesson file.

/// "sentences: |" and a line for each.
std::string sentences_text(std::string_view key,
                           const std::vector<LessonLine>& lines);

/// "passage:" with its title, its text and its questions.
std::string passage_text(const LessonPassage& passage);

}  // namespace sheaf
