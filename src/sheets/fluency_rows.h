#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sheets/sheet.h"

namespace sheaf {

/// What stands in a part of the sheet `fluency`, in the order of reading; the
/// sheet breaks it into rows.
struct FluencyPart {
  enum class Kind { sounds, words, phrases, sentences };
  struct Item {
    std::string text;
    int count = 1;       ///< sounds or words to be read
    bool fresh = false;  ///< with the week's pattern
    Span from = {};
  };
  Kind kind = Kind::words;
  int rows = 0;  ///< at most
  std::vector<Item> items;
  /// Why it is left out, as the end of a sentence; empty where it stands.
  std::string missing;
};

std::string_view part_name(FluencyPart::Kind kind);  ///< "Sounds"

/// The parts that the sheet's options ask for, with items enough for their
/// rows: the week's among those taught before, about half of each as far as
/// there are any, nothing twice in a row. Decided by the lesson's seed.
std::vector<FluencyPart> fluency_parts(const SheetInput& in);

/// How many items of a kind are enough for so many rows, at most.
int items_for_rows(FluencyPart::Kind kind, int rows);

/// What the teacher says and does.
ScriptLines fluency_script(const SheetInput& in, const DayStep& step);

}  // namespace sheaf
