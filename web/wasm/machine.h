#pragma once

#include "files/memory_files.h"

namespace sheaf {

/// All files there are.
MemoryFiles& memory();

/// Where what comes with Sheaf is put before anything is asked.
inline constexpr const char* kShipped = "/.sheaf/share/sheaf";

}  // namespace sheaf
