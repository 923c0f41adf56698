#pragma once

#include <vector>

#include "planning/word_search.h"

namespace sheaf {

/// As many of the words as the query asks for, one by one, each time the one
/// that costs least when its likeness to those already taken is counted in. Of
/// a word and its form only one is taken. A first set keeps to the place of the
/// pattern in which its words cost least, but a word elsewhere that costs much
/// less than what is left there comes before it.
std::vector<FoundWord> choose_words(const std::vector<FoundWord>& words,
                                    const WordQuery& query,
                                    const Pattern& pattern);

}  // namespace sheaf
