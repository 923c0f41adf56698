#pragma once

#include <string>

#include "lexicon/word_table.h"

namespace sheaf {

/// Puts right what the dictionary gets wrong and only the lists can tell: the
/// vowel of firemen (there is a fireman), the weak e of recall (no prefix).
void repair_by_lists(const LexiconSources& sources, const Inventory& inventory,
                     WordRecord& record);

}  // namespace sheaf
