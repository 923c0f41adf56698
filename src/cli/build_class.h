#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "cli/command_line.h"
#include "cli/made_from.h"
#include "driver/workspace.h"

namespace sheaf {

/// Builds the class that `--class` names; gives the exit code. Throws
/// MachineError.
int build_class(Workspace& workspace, const CommandLine& line);

/// Makes the packets of a class file into `folder`, with a record of what they
/// were made from if `made` is there, and adds them to `targets`. False where
/// an error was found, which is printed; nothing is written then.
bool make_class(Workspace& workspace, const CommandLine& line,
                const std::string& path, const std::filesystem::path& folder,
                MadeFrom* made, std::vector<std::string>& targets);

}  // namespace sheaf
