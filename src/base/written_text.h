#pragma once

#include <string>
#include <string_view>

namespace sheaf {

/// A text that stands in the file of a message, between the signs by which
/// `Diagnostics` knows it again (see `as_written` in base/diagnostics.h), as it
/// is: without backticks, and not cut short.
std::string written(std::string_view text);

}  // namespace sheaf
