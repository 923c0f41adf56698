#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "phonics/sound_step.h"

namespace sheaf {

/// A word of a chain, which one sound makes out of the word before it.
struct ChainWord {
  AnalyzedWord word;
  bool made_up = false;
  SoundStep step;  ///< from the word before; nothing in the first
};

/// Two words that differ in one sound, which is that of the lesson's pattern in
/// the first.
struct NearPair {
  AnalyzedWord own, other;
  SoundStep step;         ///< from the first to the second
  bool readable = false;  ///< both with what was taught
};

/// What is searched for in the word list only where a sheet asks: it takes some
/// hundredths of a second. Both are empty where nobody looked a lesson's words
/// up with the word list at hand.
struct WordGames {
  /// Six words to `most`, which is eight or less, or none; see
  /// planning/chain_search.h.
  std::function<std::vector<ChainWord>(const AnalyzedLesson&, bool made_up,
                                       std::size_t most)>
      chain;
  /// At most `count`; see planning/near_pairs.h.
  std::function<std::vector<NearPair>(
      const AnalyzedLesson&, const WordTest& has_picture, std::size_t count)>
      near_pairs;
};

}  // namespace sheaf
