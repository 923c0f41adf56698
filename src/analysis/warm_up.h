#pragma once

#include <span>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// How much a warm-up holds: graphemes to say, as many sounds to hear, words.
inline constexpr std::size_t kWarmUpGraphemes = 6;
inline constexpr std::size_t kWarmUpWords = 4;

/// A warm-up from the patterns that are due by the sequence, then others taught
/// before, and a learner's own review words, which come first. Words can be
/// read with what was taught. Empty where nothing is known of before.
WarmUp warm_up_of(const AnalyzedLesson& lesson,
                  std::span<const AnalyzedWord> review_words);

}  // namespace sheaf
