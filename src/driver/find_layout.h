#pragma once

#include <optional>

#include "driver/workspace.h"
#include "files/path.h"

namespace sheaf {

/// The file of a layout that a lesson or a class names: `week` means
/// layouts/week.yaml beside it or among those that come with Sheaf, and a name
/// that ends in .yaml a file beneath its folder. Reports a layout that is not
/// there.
std::optional<FilePath> find_layout(
    Workspace& workspace, const std::vector<std::string>& allowed_folders,
    const PlacedWord& name, const FilePath& folder, Diagnostics& diagnostics);

}  // namespace sheaf
