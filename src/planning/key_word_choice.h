#pragma once

#include <string>

#include "planning/word_search.h"

namespace sheaf {

/// A word that stands for a pattern.
struct KeyWordChoice {
  std::string word;  ///< empty where there is none that would do
  bool picture = false;
};

/// The word with the query's pattern that a teacher would put on a card: no
/// word that a class giggles at (phonics/key_word_fit.h), of as few beats as
/// the pattern allows, with its sound clear. Of these first those with a
/// picture that children name so; then what is a thing, and so can be pictured;
/// then the word by which the catalogue names the pattern; then those that
/// children know first, with the fewest sounds. Our own judgement, held against
/// tests/data/draft_key_words.tsv.
KeyWordChoice choose_key_word(const SearchGround& source,
                              const WordQuery& query);

}  // namespace sheaf
