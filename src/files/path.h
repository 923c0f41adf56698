#pragma once

#include <filesystem>

namespace sheaf {

/// The name of a file or a folder, taken apart and put together as text:
/// nothing is looked up. What stands under a name, `Files` says.
using FilePath = std::filesystem::path;

}  // namespace sheaf
