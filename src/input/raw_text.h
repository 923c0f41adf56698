#pragma once

#include <optional>
#include <string>

#include "base/diagnostics.h"

namespace sheaf {

/// Checks a file's bytes before anything reads a meaning into them: its size,
/// UTF-8, control and unseen characters, heaps of marks, tabs in indentation.
/// Returns the text as the YAML library is to see it, or nothing if the file
/// is refused. The copy has the same length and places as the file, but each
/// tab and each unusual space in it is plain spaces, and a carriage return
/// that stands alone is a line feed: to a teacher they look the same.
std::optional<std::string> check_raw_text(const SourceFile& file,
                                          std::size_t limit,
                                          Diagnostics& diagnostics);

/// The same for a text that nobody wrote for Sheaf, such as a learner's own:
/// tabs and brackets may stand in it as they like.
std::optional<std::string> check_plain_text(const SourceFile& file,
                                            std::size_t limit,
                                            Diagnostics& diagnostics);

/// Whether a character cannot be seen or would disturb the page, whatever text
/// it stands in: controls, direction marks, zero-width spaces. Its name for
/// people is returned, or nothing for an ordinary character.
std::optional<std::string> unseen_character(char32_t code_point);

}  // namespace sheaf
