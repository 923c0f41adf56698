#pragma once

#include <string>
#include <vector>

#include "planning/word_search.h"

namespace sheaf {

/// A word that does not exist, for reading a pattern with nothing to guess by.
struct PseudoWord {
  std::string word;
  std::vector<Unit> units;
};

/// Made-up words of one syllable with a pattern: the beginning of one everyday
/// word and the rest of another, both decodable with what is taught. None is a
/// word of the list or sounds like one, and no part of its letters or sounds
/// is blocked. The rest says one sound only in the everyday words that have
/// it; letters stand only where English has them (c is never before e, i, y
/// unless it says /s/, k only before e, i, y, no w before a, no single c, j, v
/// or z at the end). The same every time; fewer than `count` where there are
/// no more, none for a pattern that needs two syllables.
std::vector<PseudoWord> pseudo_words(const SearchGround& source,
                                     PatternId pattern, std::size_t count);

}  // namespace sheaf
