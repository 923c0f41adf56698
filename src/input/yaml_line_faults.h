#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "base/diagnostics.h"

namespace sheaf {

// What may be wrong with one line or one text of a file, whoever notices it.

/// Says what is wrong with a line that should begin with a key and a colon and
/// does not. `at` is where the line's text begins.
void explain_missing_colon(const SourceFile& file, std::string_view source,
                           std::size_t at, Diagnostics& diagnostics);

/// Says that the quote at `at` is never closed.
void explain_open_quote(const SourceFile& file, std::string_view source,
                        std::size_t at, Diagnostics& diagnostics);

/// Says that a text begins with one of the signs (* & ! % @ ` | > ? and
/// brackets) that have a meaning of their own there.
void explain_special_sign(const SourceFile& file, std::string_view source,
                          std::size_t at, Diagnostics& diagnostics);

/// The text in quotes that suit it, for a help line; empty where it would be
/// long or needs more than quotes.
std::string in_quotes(std::string_view text);

/// Puts `better`, which is the text in quotes, where the text stands.
Fix quotes_around(const Span& text, std::string better);

/// Whether keys are made of such characters: letters, hyphens, underscores.
bool is_letter_of_key(char c);

}  // namespace sheaf
