#pragma once

#include <string_view>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// What a lesson is about, in words to a learner: "our sound"; of several
/// patterns "our sounds"; where it is about no sound (doubled letters, a
/// prefix) "our pattern" or "our patterns".
std::string_view our_sound(const AnalyzedLesson& lesson);

/// Picks the direction that says it so. The four are in that order.
struct OursTexts {
  std::string_view sound, sounds, pattern, patterns;
};
std::string_view said_ours(const AnalyzedLesson& lesson,
                           const OursTexts& texts);

}  // namespace sheaf
