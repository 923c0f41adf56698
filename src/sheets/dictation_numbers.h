#pragma once

#include "sheets/dictated.h"

namespace sheaf {

/// Adds the numbers of what is dictated and nothing else, as large as fit, a
/// cell for each word and a row for each sentence: for a board, while learners
/// write in their books.
void add_dictation_numbers(Composer& composer, const Dictated& dictated);

}  // namespace sheaf
