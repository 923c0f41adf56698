#pragma once

#include <cstddef>
#include <vector>

#include "analysis/word_games.h"
#include "planning/block_list.h"

namespace sheaf {

/// Pairs of words that differ in one sound, to be told apart by ear: ship and
/// chip. The first has the lesson's pattern, and the sound that differs is that
/// of the pattern; of a pattern that is the shape of a word (cvc, a blend) one
/// sound more or less does as well. The rest sounds the same and, as far as
/// there are such words, is spelled the same. Words of the lesson's list come
/// before others, the other word of another of its patterns before any, sounds
/// that are easily mistaken for each other (`are_near`) before others, pairs
/// where both have a picture before others. Of the
/// rest, those that can be read come first. No word twice; at most `count`,
/// fewer where there are fewer.
std::vector<NearPair> find_near_pairs(const AnalyzedLesson& lesson,
                                      const BlockList* blocked,
                                      const WordTest& has_picture,
                                      std::size_t count);

}  // namespace sheaf
