#pragma once

#include "sheets/sheet.h"

namespace sheaf {

/// The part of the script that brings in each pattern of the lesson: what is
/// said, shown and asked, by what the pattern is (a sound, a blend, an ending,
/// …); what the teacher should know of it, and what to set it beside.
void add_pattern_steps(const SheetInput& in, Composer& composer);

/// What learners find out, as one sentence for each pattern: for the script of
/// a sort and for mending.
std::vector<std::string> what_is_told(const SheetInput& in);

}  // namespace sheaf
