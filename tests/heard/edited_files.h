#pragma once

#include <string>

namespace heard {

/// A PDF file with what Sheaf does not write but a reader has to know.
/// An /ActualText on the first element of a type, over all that it holds:
std::string with_replacement(const std::string& file, const std::string& type,
                             const std::string& text);
/// All of the first page painted by a form XObject:
std::string with_content_in_form(const std::string& file);

}  // namespace heard
