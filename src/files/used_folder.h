#pragma once

#include "files/descriptor.h"
#include "files/path.h"

namespace sheaf {

/// A run may make a folder for what it is to write, and take it away again
/// where nothing came of that (see confine.h). So that it takes none away that
/// another run is about to write to, whoever is keeps it as in use.

/// Opens a folder and keeps it as in use, in the sight of all runs on the
/// machine, until it is closed. None where it cannot be opened; errno says why.
Descriptor use_folder(const FilePath& folder);

/// Removes a folder unless there is something in it or somebody uses it, this
/// process too.
void remove_unused(const FilePath& folder);

}  // namespace sheaf
