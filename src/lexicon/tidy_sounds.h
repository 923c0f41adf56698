#pragma once

#include <string_view>
#include <vector>

#include "lexicon/sources.h"

namespace sheaf {

/// Puts right what the dictionary gets wrong by rule: endings that a machine
/// has filled in, a /w/ heard into "actual", and the like. Each rule has its
/// reason beside it in the code.
std::vector<Phoneme> tidy_sounds(std::string_view letters,
                                 const Pronunciation& pronunciation);

}  // namespace sheaf
