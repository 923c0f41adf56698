#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "planning/word_search.h"

namespace sheaf {

/// A made-up word of one beat has no more letters, nor have those that its
/// parts come from.
inline constexpr std::size_t kMostPseudoLetters = 6;

/// The beginning of a word of one beat up to its vowel, or the rest of it.
struct PseudoPart {
  std::string letters;
  std::vector<Unit> units;
  bool has_pattern = false;
  int words = 0;  ///< how many everyday words have it; of a rest
  /// Of a rest: it is said in several ways, sometimes according to what stands
  /// before it (farm, warm), and so not in most words that have it.
  bool unsure = false;
};

/// What made-up words with a pattern are put together from. Parts without the
/// pattern are plain: single letters and common digraphs with their usual
/// sounds. All are parts of everyday words that can be read.
struct PseudoParts {
  /// By their letters.
  std::map<std::string, PseudoPart> onsets, rests;
  /// The beginnings of words with the pattern.
  std::set<std::string> own_onsets;
  /// The pattern is one of the whole word (cvc, blends): no part has it alone,
  /// and `has_pattern` says that a word with the pattern has the part.
  bool of_word = false;
};

PseudoParts find_parts(const SearchGround& source, PatternId pattern);

/// Whether a beginning can stand before a rest as English spells: no c before
/// e, k only there, and so on.
bool can_join(const PseudoPart& onset, const PseudoPart& rest);

}  // namespace sheaf
