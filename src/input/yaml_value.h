#pragma once

#include "base/diagnostics.h"
#include "base/value.h"

namespace sheaf {

/// Reads a YAML file into values that keep their places. Refuses, with a
/// place and what to do: text that is not UTF-8, NUL and other control
/// characters, tabs in indentation, a second document, anchors, aliases and
/// tags, repeated keys, nesting deeper than 16, files over `limit` bytes.
/// Every bare word is text: `null`, `no` and `7` too. The result is to be used
/// only if no error stands. This is the one place that knows the YAML library.
Value read_yaml(const SourceFile& file, Diagnostics& diagnostics,
                std::size_t limit = std::size_t{1} << 20U);

}  // namespace sheaf
