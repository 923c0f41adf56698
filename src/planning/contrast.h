#pragma once

#include <string>
#include <vector>

#include "planning/word_search.h"

namespace sheaf {

/// Two words that differ in one sound, the one that their patterns are about:
/// bed and bid, ship and chip.
struct SoundPair {
  std::string first, second;
};

/// As many pairs as the query asks for, or as there are: the first word has the
/// query's pattern and not the other, the second the other way round. Words
/// that children know first before others, pairs spelled alike but for the
/// pattern before others, and unlike each other; no word twice. Where one of
/// the patterns is about how many sounds a word has (cvc, ccvc), a sound more
/// will do (lip and slip). Patterns that spell the same sound have none.
std::vector<SoundPair> contrast_pairs(const SearchGround& source,
                                      const WordQuery& query, PatternId other);

/// The words of the pairs, for `WordQuery::prefer`.
std::vector<std::string> words_of(const std::vector<SoundPair>& pairs);

}  // namespace sheaf
