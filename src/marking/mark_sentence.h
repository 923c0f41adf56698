#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "marking/mark_attempt.h"

namespace sheaf {

/// A word of the sentence that was dictated, and what stands for it.
struct MarkedWord {
  enum class Kind : std::uint8_t {
    matched,
    missing,
    split,   ///< written as two words: in side
    joined,  ///< written as one with its neighbour: alot
  };
  Kind kind = Kind::missing;
  /// Of a split word both parts with a space; of a joined one its own share of
  /// the letters. Blank for a missing word.
  MarkedAttempt attempt;

  /// Spelled right and written as one word of its own.
  bool right() const { return kind == Kind::matched && attempt.right; }
};

/// A written word that nothing in the sentence accounts for.
struct ExtraWord {
  std::string written;
  std::size_t before = 0;  ///< the target word it stands before
};

struct MarkedSentence {
  /// One for each word of the target, in order.
  std::vector<MarkedWord> words;
  std::vector<ExtraWord> extra;
  LetterSequences sequences;  ///< of all words together
  bool capital = false;       ///< begins with a capital
  bool end_mark = false;      ///< ends with . ! or ?

  int words_right() const;
};

/// Lays a written sentence against the words that were dictated, at the least
/// total difference in letters, then marks word by word. Words keep their
/// order: a word that has changed its place is missing here and extra there.
MarkedSentence mark_sentence(const SoundSpellings& spellings,
                             std::span<const Reading> target,
                             std::string_view written,
                             const MarkingOptions& options = {});

}  // namespace sheaf
