#pragma once

#include <vector>

#include "sheets/sheet.h"

namespace sheaf {

/// Adds words in a box, in rows, as wide apart as the longest needs.
void add_word_bank(Composer& composer,
                   const std::vector<const AnalyzedWord*>& words,
                   Length size = {});

}  // namespace sheaf
