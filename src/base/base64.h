#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace sheaf {

/// Bytes as text of letters, figures, `+` and `/` (RFC 4648, section 4).
std::string to_base64(std::string_view bytes);

/// The bytes again; spaces and line breaks in the text do not count. Nothing
/// where there is another sign in it or it is cut short.
std::optional<std::string> from_base64(std::string_view text);

}  // namespace sheaf
