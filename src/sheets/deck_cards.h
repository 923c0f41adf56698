#pragma once

#include <string>
#include <vector>

#include "sheets/sheet.h"

namespace sheaf {

/// The graphemes that were taught up to this lesson, each once: a pack of cards
/// to go through day by day.

struct DeckCard {
  /// A sound that the grapheme was taught for, and a word that has it and can
  /// be read by now; empty where Sheaf knows none.
  struct Says {
    std::vector<Phoneme> sound;
    std::string word;
  };
  std::string grapheme;
  std::vector<Says> says;  ///< in the order of teaching
  /// The patterns that taught it, in the same order.
  std::vector<PatternId> patterns;
  /// The step that taught it last, an index into `Taught::steps`; -1 where it
  /// was known before the first.
  int step = -1;
  /// This lesson teaches it, or a further sound of it.
  bool is_new = false;
};

/// In the order of teaching. Patterns that are about no grapheme have no card;
/// single consonants have one only where something further was taught of them
/// (the /z/ of s), with their usual sound first.
std::vector<DeckCard> deck_cards(const SheetInput& in);

/// Why a lesson has no such cards, or nothing.
std::string why_no_deck(const SheetInput& in);

}  // namespace sheaf
