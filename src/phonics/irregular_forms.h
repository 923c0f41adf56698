#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/endings.h"

namespace sheaf {

/// A word whose forms with one ending are not made by the rules, or not alone:
/// a row of src/data/irregular_forms.tsv.
struct IrregularRow {
  std::string base;
  Ending ending = Ending::none;
  /// Every right form, the usual American one first.
  std::vector<std::string> forms;
  /// It holds for longer words that end in it too: knife, penknife.
  bool tail = false;
};

/// The rows by base, then ending. Read once from what is built in.
std::span<const IrregularRow> irregular_rows();

/// The right forms of a base with an ending, where a row says so: its own
/// (go), that of the word it ends in (penknife), or that of the verb behind a
/// prefix (overtake). Else nothing. -s and -es count as one ending, as asked
/// for with -s.
std::vector<std::string> irregular_forms(std::string_view base, Ending ending);

/// The bases that have this form in a row of theirs for an ending: knife for
/// knives, penknife for penknives, go for went.
std::vector<std::string> bases_of_irregular(std::string_view form,
                                            Ending ending);

}  // namespace sheaf
