#pragma once

#include <string>

#include "phonics/conventions.h"
#include "phonics/pattern_catalogue.h"
#include "phonics/reading.h"

namespace sheaf {

struct WordFacts;

/// Why a word does not have a pattern, as the end of a sentence.
std::string explain_why_not(const Reading& reading, const WordFacts& facts,
                            const PatternCatalogue& catalogue,
                            PatternId pattern);

}  // namespace sheaf
