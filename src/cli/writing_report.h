#pragma once

#include <string>
#include <string_view>

#include "marking/free_writing.h"
#include "phonics/pattern_catalogue.h"

namespace sheaf {

/// What was found in a learner's text, for a terminal: how the taught patterns
/// went, every word that is not right or may be another, what may be a name,
/// and a line for a record. `learner` is a code, or empty.
std::string writing_text(const FreeWriting& writing,
                         const PatternCatalogue& catalogue,
                         std::string_view learner);

}  // namespace sheaf
