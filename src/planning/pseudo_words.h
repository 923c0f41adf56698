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
/// word of the list or sounds like one; no part of its letters or sounds is
/// blocked, and none is one letter or one sound from a rude word. Its
/// consonants stand together in common words of one syllable, its letters only
/// where English has them (c is never before e, i, y unless it says /s/, k only
/// before e, i, y, no w before a plain a, no single c, f, j, l, s, v or z at
/// the end), and a reader who meets it takes it for the same graphemes and
/// sounds (`Phonics::read`), so that `sheaf word` says of it what it is made
/// of. Rests that are said in one way come before others. The same every time;
/// fewer than `count` where there are no more, none for a pattern that needs
/// two syllables or an ending.
std::vector<PseudoWord> pseudo_words(const SearchGround& source,
                                     PatternId pattern, std::size_t count);

}  // namespace sheaf
