#pragma once

#include <span>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// How much a warm-up holds: graphemes to say, as many sounds to hear, words.
inline constexpr std::size_t kWarmUpGraphemes = 6;
inline constexpr std::size_t kWarmUpWords = 4;

/// A warm-up from the patterns that the lesson says were taught before and a
/// learner's own review words, which come first. Empty where neither is known.
WarmUp warm_up_of(const AnalyzedLesson& lesson,
                  std::span<const AnalyzedWord> review_words);

}  // namespace sheaf
