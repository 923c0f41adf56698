#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "phonics/word_meanings.h"

namespace sheaf {

/// A piece of a sentence that can stand alone, whatever sentence it came from.
struct Phrase {
  std::string text;                 ///< begins small
  std::size_t first = 0, last = 0;  ///< indices of its words in the sentence

  bool empty() const { return text.empty(); }
};

/// The phrase that begins with word `first`, if one does: a preposition, a word
/// such as "the", and one word or two, at whose end the sentence or a part of
/// it must be. Anything else could be cut in the wrong place.
Phrase place_phrase(const AnalyzedSentence& sentence, std::size_t first);

/// The same for who or what does something: a word such as "the" at the
/// beginning of the sentence, and one word or two with is, was, has or can
/// behind them ("the wet fish" of "The wet fish is on the dish").
Phrase subject_phrase(const AnalyzedSentence& sentence, std::size_t first);

/// The phrases of a sentence that are surely whole and read well alone, by what
/// their words can be: none that begins with up, down or of ("pick up the
/// cup"), ends in a word such as now, or has two words behind "the" of which
/// the first is no adjective and the second mostly a verb ("look at the dog
/// run").
std::vector<Phrase> safe_phrases(const AnalyzedSentence& sentence,
                                 const WordMeanings& meanings);

}  // namespace sheaf
