#pragma once

#include <string>
#include <vector>

#include "sheets/sheet.h"

namespace sheaf {

/// The graphemes that were taught up to this lesson, each once: a pack of cards
/// to go through day by day.

struct DeckCard {
  /// What the grapheme was taught to say, and a word that has it and can be
  /// read by now; empty where Sheaf knows none.
  struct Says {
    /// One, but for letters that are read as one thing: those of tion.
    std::vector<std::vector<Phoneme>> sounds;
    std::string word;
  };
  std::string grapheme;    ///< or such letters: nk, tion, able
  std::vector<Says> says;  ///< in the order of teaching
  /// The patterns that taught it, in the same order.
  std::vector<PatternId> patterns;
  /// The step that taught it last, an index into `Taught::steps`; -1 where it
  /// was known before the first.
  int step = -1;
  /// This lesson teaches it, or a further sound of it.
  bool is_new = false;
};

/// In the order of teaching; with the key words of the lesson and its sequence,
/// else the best that can be read. Patterns that are about no grapheme have no
/// card; single consonants have one only where something further was taught of
/// them (the /z/ of s), with their usual sound first.
std::vector<DeckCard> deck_cards(const SheetInput& in);

/// "/sh/", "/sh/ /uh/ /n/".
std::string sounds_said(const AnalyzedLesson& lesson,
                        const DeckCard::Says& says);

/// Why a lesson has no such cards, or nothing.
std::string why_no_deck(const SheetInput& in);

}  // namespace sheaf
