#pragma once

#include <string>
#include <vector>

#include "sheets/sheet.h"

namespace sheaf::letters_sheet {

/// What the sheet and its script share: what is written, a letter or a grapheme
/// to a row, in their order. `in.options` are those of the sheet `letters`. A
/// split grapheme has a blank for the letter between: "a e".
std::vector<std::string> rows_of(const SheetInput& in);

/// The letters of a row, each once, in their order.
std::string letters_in(const std::string& row);

/// How a row is called: "b", "capital B", "sh", "a-blank-e".
std::string heard_row(const std::string& row);

/// What is said and done with the sheet.
ScriptLines script(const SheetInput& in, const DayStep& step);

}  // namespace sheaf::letters_sheet
