#pragma once

#include <string>
#include <vector>

#include "analysis/remembered_parts.h"
#include "sheets/sheet.h"

namespace sheaf::irregular_sheet {

/// What the sheet of words with a part to remember shows and what is said of
/// them.

/// The words of the sheet, those with something to remember first, and what is
/// left for the key to tell of.
struct Content {
  std::vector<RememberedWord> words;
  std::vector<RememberedWord> for_later;
  std::vector<RememberedWord> expected;  ///< of this week, all of it
};
/// At most as many as the sheet's option `words` says.
Content content_of(const SheetInput& in);

/// The words: "a, b and c".
std::string names(const std::vector<RememberedWord>& words);

/// For the key: "as expected s, d; to remember: ai says /e/."
std::string parts_told(const AnalyzedLesson& lesson,
                       const RememberedWord& word);

ScriptLines script(const SheetInput& in, const DayStep& step);

}  // namespace sheaf::irregular_sheet
