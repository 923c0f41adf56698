#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/lexicon.h"

namespace sheaf {

/// What may be suggested for a word that nobody knows.
struct NearWordLimits {
  /// Names too: the word has a capital.
  bool names = false;
  /// Says of words that they may be suggested; all may where it is empty.
  std::function<bool(std::string_view)> may_suggest;
  std::size_t most = 3;
};

/// The known words one slip away from `wrong` (a letter more, fewer or other,
/// or two neighbours swapped), the likeliest first: words that children know
/// before all others, then by how often such a slip happens (two neighbours
/// swapped, a letter twice or once, vowel for vowel; the first letter is
/// seldom wrong) and by how common the word is. Which slip is how likely is a
/// judgement of ours. `wrong` is in lower case, a to z; that nobody knows it
/// is for the caller to say.
std::vector<std::string> near_words(std::string_view wrong,
                                    const Lexicon& lexicon,
                                    const NearWordLimits& limits);

}  // namespace sheaf
