#pragma once

#include <cstddef>
#include <string_view>

#include "base/diagnostics.h"

namespace sheaf {

/// Where and how the YAML library gave up, and what it had read before.
struct Stop {
  std::string_view source;  ///< the text that the library was given
  std::size_t at = 0;
  std::string_view reason;  ///< in the library's words; never shown
  /// The last text or bracket that was read whole; both 0 if there was none.
  std::size_t last_begin = 0;
  std::size_t last_end = 0;
  /// The innermost bracket still open, or npos.
  std::size_t open_bracket = std::string_view::npos;
};

/// Says in a teacher's words what is wrong around the place where the library
/// gave up, and what to do. Always reports one error.
void explain_stop(const SourceFile& file, const Stop& stop,
                  Diagnostics& diagnostics);

}  // namespace sheaf
