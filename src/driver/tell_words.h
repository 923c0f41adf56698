#pragma once

#include "driver/workspace.h"

namespace sheaf {

/// Says what is wrong with a lesson's words, beside the errors that it has
/// elsewhere (`report_words_alone`). No word is suggested that the shipped list
/// or the teacher's own, in `folder`, blocks.
void tell_words(Workspace& workspace, const FilePath& folder,
                const Lesson& lesson, Diagnostics& diagnostics);

}  // namespace sheaf
