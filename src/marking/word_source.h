#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/inventory.h"
#include "phonics/reading.h"
#include "phonics/segment.h"

namespace sheaf {

class Lexicon;

/// A word that a learner may have meant, with how common it is.
struct ListedWord {
  std::string spelling;      ///< in lower case
  Segments segments;         ///< its graphemes and sounds
  std::uint16_t stress = 1;  ///< a bit for each syllable from the first
  /// The size of the SCOWL list that first has it, 10 (commonest) to 95; 0
  /// where none has it.
  int tier = 0;
  bool everyday = false;  ///< of our list of children's everyday words
  bool first = false;     ///< of those that children know before the others
  bool name = false;
};

/// All words that can be meant, and the correspondences that their segments
/// are of. The caller owns both.
struct WordSource {
  std::span<const ListedWord> words;
  const Inventory* inventory = nullptr;
};

/// The words of the compiled word list that may be meant, one for each
/// spelling, in the order of the list; rare ones of the largest lists are none.
std::vector<ListedWord> listed_words(const Lexicon& lexicon);

/// A word that the list does not have, such as one split by hand; nothing
/// where the inventory lacks one of its correspondences.
std::optional<ListedWord> listed_word(const Reading& reading,
                                      const Inventory& inventory);

/// The phonemes of a listed word.
std::vector<Phoneme> sounds_of(const ListedWord& word,
                               const Inventory& inventory);

/// Whether a word does grammar's work (the, was, they, could): the words that
/// learners write most. By the classes of English grammar; from memory.
bool is_grammar_word(std::string_view spelling);

}  // namespace sheaf
