#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/lexicon.h"
#include "phonics/reading.h"
#include "phonics/word_endings.h"

namespace sheaf {

/// A word cut where its graphemes meet, to be tried for two words in it.
struct CutWord {
  /// A grapheme: its first letter, its last sound, and the letter behind the
  /// e of a split one (0 for others), before which no word ends.
  struct Piece {
    std::size_t letter = 0, sounds_end = 0, split_end = 0;
  };
  std::string_view letters;
  std::vector<Phoneme> sounds;
  std::vector<Piece> pieces;
};

/// The letter that begins the second word of a compound, or 0: both parts are
/// words that sound as they do in it, or the list of compounds has it.
std::size_t second_word(const CutWord& word, const Lexicon& lexicon);

/// A word whose second part alone has the endings: sunglasses, for there is no
/// sunglass. `at` is the letter that begins the second word, 0 where that is
/// too rare for a compound; the bases of the endings are whole.
struct PartEndings {
  std::size_t at = 0;
  std::vector<TakenEnding> endings;
};
PartEndings endings_of_part(const CutWord& word, const Lexicon& lexicon);

/// A record's word; its letters are those of `spelling` without signs, kept by
/// the caller.
CutWord cut_record(const WordRecord& record, std::string_view letters,
                   const Inventory& inventory);

}  // namespace sheaf
