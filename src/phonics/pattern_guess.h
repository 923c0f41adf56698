#pragma once

#include <string>
#include <string_view>

#include "phonics/pattern_search.h"

namespace sheaf {

/// Whether a pattern is about a grapheme: it teaches it, and its id or name has
/// it. `plain` is the grapheme's `plain_name`.
bool is_about_grapheme(const Pattern& pattern, const std::string& plain);

/// Fills in what could be meant by a text that is no name: terms that have all
/// of its words, else the patterns whose ids and names have most of them, else
/// names that are spelled nearly so.
void guess_pattern(const PatternCatalogue& catalogue, std::string_view text,
                   PatternName& name);

}  // namespace sheaf
