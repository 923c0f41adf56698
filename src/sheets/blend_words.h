#pragma once

#include <vector>

#include "sheets/sheet.h"

namespace sheaf {

/// The words of the sheet of words to blend, in its order; `in.options` are
/// those of the sheet. Where the first is done for the learner, it is one with
/// a silent e if there is any: its mark is the one to be shown. Points into the
/// lesson.
std::vector<const AnalyzedWord*> blend_words(const SheetInput& in);

/// Whether the first of them is done.
bool has_blend_model(const SheetInput& in);

}  // namespace sheaf
