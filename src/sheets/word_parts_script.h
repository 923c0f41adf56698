#pragma once

#include "sheets/sheet.h"

namespace sheaf {

/// The part of the script for the sheet of word parts of this packet: what to
/// show, say and do, and what counts as done, for each part that the sheet has.
void add_word_parts_steps(const SheetInput& in, Composer& composer);

}  // namespace sheaf
