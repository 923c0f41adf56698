#pragma once

#include <set>
#include <string>
#include <vector>

#include "input/sequence.h"
#include "planning/word_search.h"

namespace sheaf {

/// The words of a check that climbs a sequence, and what it cannot ask for.
struct PlacementWords {
  struct Step {
    std::size_t step = 0;  ///< an index into the sequence's steps
    int number = 0;        ///< as the sequence counts
    std::vector<std::string> words;
  };
  std::vector<Step> part_one;  ///< one word each
  std::vector<Step> part_two;
  /// Steps that teach a pattern and have fewer words than part two asks for:
  /// those that there are.
  std::vector<Step> short_of_words;
  /// Steps that teach no pattern, so that no word can show them.
  std::vector<Step> without_pattern;
};

/// Part two asks for so many words of a step, part one for one of every so many
/// steps.
inline constexpr std::size_t kPlacementWordsEach = 3;
inline constexpr std::size_t kPlacementEvery = 3;

/// Where the words are looked for; `taught` is made for each step.
struct PlacementGround {
  const Phonics& phonics;
  const Conventions& conventions;
  const BlockList* blocked = nullptr;
  /// Words of lessons, in lower case; left out with their inflected forms.
  std::set<std::string, std::less<>> used;
};

/// Chooses words whose new part is the step's pattern and whose other graphemes
/// were taught before it: words that children know first come first, those
/// that have a sentence to be said in before others, and of those left words
/// that no other word sounds like. No word is asked for twice, none is known by
/// sight in any step. Reports names of patterns that nobody knows.
PlacementWords placement_words(const SequenceFile& sequence,
                               const PlacementGround& ground,
                               Diagnostics& diagnostics);

/// The lesson file that holds the check. `sequence` is how it names the
/// sequence, `title` stands on the pages.
std::string placement_text(const PlacementWords& words,
                           const std::string& sequence);

}  // namespace sheaf
