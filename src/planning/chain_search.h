#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "analysis/word_games.h"
#include "planning/block_list.h"

namespace sheaf {

inline constexpr std::size_t kShortestChain = 6;
inline constexpr std::size_t kLongestChain = 8;

/// A chain of words, each made of the one before by one sound, which is
/// changed, added or taken away with the letters of one grapheme: ship, shop,
/// chop, chip. All can be read with what was taught and the week's pattern, at
/// least every second one has the pattern, and none comes twice. Six words
/// to `most`, at most eight; none where there is no such chain.
///
/// The search prefers, in this order: words of the lesson's list, then those
/// that children know first; a change at another place than the two before it,
/// so that first, middle and last sounds come in turn; words with the pattern;
/// a sound changed over one added or taken away; the longer chain. Words made
/// up (see pseudo_words.h) come in only where they are asked for, and where
/// real ones would not do as well. It looks at no more than 1500 words and
/// keeps the best 300 beginnings of each length, so it may miss a chain that
/// there is; it is the same every time for a lesson's seed.
std::vector<ChainWord> find_chain(const AnalyzedLesson& lesson,
                                  const BlockList* blocked, bool made_up,
                                  std::size_t most = kLongestChain);

/// What is wrong with a chain, as the end of a sentence; empty where nothing
/// is. Of each word it says whether it has the pattern.
struct ChainLink {
  std::vector<SoundPiece> pieces;
  bool has_pattern = false;
};
std::string chain_fault(std::span<const ChainLink> chain);

}  // namespace sheaf
