#pragma once

#include <string>

#include "phonics/conventions.h"
#include "phonics/pattern_catalogue.h"
#include "phonics/reading.h"

namespace sheaf {

struct WordFacts;

/// Why a word does not have a pattern, as the end of a sentence. The reading is
/// of these conventions.
std::string explain_why_not(const Reading& reading, const WordFacts& facts,
                            const PatternCatalogue& catalogue,
                            PatternId pattern, const Conventions& conventions);

/// How easily a word without a pattern is taken for one that has it: it has a
/// grapheme of the pattern, or its letters in other graphemes, where the
/// pattern wants them (close) or about there (loose).
enum class Likeness { none, loose, close };
Likeness likeness_to(const Reading& reading, const WordFacts& facts,
                     const PatternCatalogue& catalogue, PatternId pattern);

}  // namespace sheaf
