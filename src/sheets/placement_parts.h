#pragma once

#include <string>
#include <vector>

#include "analysis/placement_check.h"
#include "sheets/in_sentence.h"
#include "sheets/sheet.h"

namespace sheaf {

/// What the pages of a placement check share.

/// Why a lesson has nothing for them; empty for a placement check.
std::string placement_missing(const SheetInput& in);

/// "5, short u": the step's number and what it teaches; of several patterns the
/// first is named, and a second where there are two.
std::string placement_step(const SheetInput& in,
                           const PlacementCheck::Rung& rung);

/// A word to say, its sentence behind it; in bold the letters that are looked
/// at, which spell what the step teaches: "d**u**st: Wipe the dust off." The
/// whole word where the step is about no letters of its own.
std::vector<TextPiece> placement_word(const SheetInput& in,
                                      const AnalyzedWord& word,
                                      const PlacementCheck::Rung& rung,
                                      const InSentence& said,
                                      const TextStyle& plain,
                                      const TextStyle& strong);

/// Where part two begins, by how many words of part one were right.
struct PlacementRow {
  std::size_t least = 0, most = 0;  ///< right words
  std::size_t rung = 0;             ///< the first of part two
};
/// All of them, from low to high; counts that lead to one part stand together.
std::vector<PlacementRow> placement_table(const PlacementCheck& check);

}  // namespace sheaf
