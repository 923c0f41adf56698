#pragma once

#include <string>
#include <vector>

#include "cli/command_line.h"
#include "driver/workspace.h"
#include "files/output_files.h"

namespace sheaf {

/// Throws MachineError where the file that `--deps` names may not be replaced,
/// so that nothing is built then.
void check_dependency_file(const CommandLine& line);

/// Writes the file that `--deps` asks for, if it does, with the other files of
/// a set: which files `targets` were made from, as make reads it. Throws
/// MachineError, also where a file has a name that make cannot take.
void add_dependencies(OutputFiles& files, Workspace& workspace,
                      const CommandLine& line,
                      const std::vector<std::string>& targets);

}  // namespace sheaf
