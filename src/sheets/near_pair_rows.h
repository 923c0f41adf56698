#pragma once

#include <string>
#include <vector>

#include "analysis/word_games.h"
#include "sheets/sheet.h"

namespace sheaf {

/// One row of the sheet `near-pairs`: two words that differ in one sound, of
/// which the teacher says one.
struct NearPairRow {
  enum class Show { pictures, words, numbers };

  const NearPair* pair = nullptr;  ///< kept by the packet's `SheetMemory`
  Show show = Show::words;
  bool own_first = true;  ///< the word of the week stands at the left
  bool own_said = true;   ///< and it is the one that is said

  const AnalyzedWord& left() const {
    return own_first ? pair->own : pair->other;
  }
  const AnalyzedWord& right() const {
    return own_first ? pair->other : pair->own;
  }
  bool left_said() const { return own_first == own_said; }
  const AnalyzedWord& said() const {
    return own_said ? pair->own : pair->other;
  }
  const AnalyzedWord& not_said() const {
    return own_said ? pair->other : pair->own;
  }
};

/// The rows of a sheet with these options, in the order that the lesson's seed
/// gives; which word is said, and where it stands, is the seed's too: about
/// half of each. Rows with pictures where both words have one; where not, or
/// where the sheet asks for no pictures, the words if both can be read, else
/// numbers.
std::vector<NearPairRow> near_pair_rows(const SheetInput& in);

/// What the teacher says and does.
ScriptLines near_pairs_script(const SheetInput& in, const DayStep& step);

}  // namespace sheaf
