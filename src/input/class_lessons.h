#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "input/class_file.h"

namespace sheaf {

/// A lesson that stands in a class file and the one that takes its place.
struct LessonChange {
  Span place;  ///< the value after `lesson:`
  std::string lesson;
};

/// The text of a class file with other lessons: those of `changes` where they
/// stand, and one of their own for some learners. All else stays as it is
/// written, remarks and order too. Nothing where the learners are a plain list,
/// which has no room for a lesson, or where the text would not be read to that.
std::optional<std::string> with_lessons(
    const ClassFile& class_file, const std::vector<LessonChange>& changes,
    const std::map<LearnerCode, std::string>& own);

}  // namespace sheaf
