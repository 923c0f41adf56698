#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "driver/workspace.h"

namespace sheaf {

/// A word as a lesson sees it: as it stands there if it does, else as its
/// conventions and what was taught make it.
struct SeenWord {
  AnalyzedWord word;
  Conventions conventions;
  const Phonics* phonics = nullptr;
  const AnalyzedLesson* lesson = nullptr;  ///< null without one
};
SeenWord see_word(std::string_view spelling, const AnalyzedLesson* lesson,
                  const Phonics& phonics);

/// The step from which learners can read it, in words: "decodable", "by sight",
/// "not yet: oa as /oh/ is taught in step 14"; empty where nobody knows.
std::string standing_of(const SeenWord& seen);

/// Graphemes, sounds, boxes, syllables with their kinds and why the word
/// divides there, patterns and standing, a line each.
std::vector<std::string> lines_about(const SeenWord& seen);

/// Rule, texts, examples and near misses of a pattern, a line each.
std::vector<std::string> lines_about(PatternId pattern, const Phonics& phonics);

}  // namespace sheaf
