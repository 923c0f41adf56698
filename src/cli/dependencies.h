#pragma once

#include <string>
#include <vector>

#include "cli/command_line.h"
#include "cli/workspace.h"

namespace sheaf {

/// Writes the file that `--deps` asks for, if it does: which files `targets`
/// were made from, as make reads it. Throws MachineError, also where a file has
/// a name that make cannot take.
void write_dependencies(Workspace& workspace, const CommandLine& line,
                        const std::vector<std::string>& targets);

}  // namespace sheaf
