#pragma once

#include <string>

#include "cli/command_line.h"
#include "driver/marking_desk.h"
#include "marking/review_cards.h"

namespace sheaf {

/// Writes the week of a class on one page to the file that `--pdf` names, with
/// the review cards that move by what the records say (`evidence`). False
/// where the class cannot be printed, which is said.
bool write_week_page(Workspace& workspace, const CommandLine& line,
                     const std::string& class_path,
                     const CardEvidence& evidence);

}  // namespace sheaf
