#pragma once

#include <cstddef>
#include <string_view>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// How long a lesson is, for limits on what is made of it.
struct LessonSize {
  /// Words of its lists, its sentences and its passage.
  std::size_t words = 0;
  /// The key with the most of them, and where the file has it: no place where
  /// Sheaf chose them.
  std::string_view longest_key;
  Span longest;
};

LessonSize size_of(const AnalyzedLesson& lesson);

}  // namespace sheaf
