#pragma once

#include "sheets/sheet.h"

namespace sheaf {

/// The part of the script that leads the reading of a passage: what to show,
/// say and do, so that somebody who stands in can follow it.
void add_passage_steps(const SheetInput& in, Composer& composer);

}  // namespace sheaf
