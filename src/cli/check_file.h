#pragma once

#include <memory>
#include <string>

#include "base/diagnostics.h"
#include "cli/command_line.h"
#include "driver/workspace.h"

namespace sheaf {

/// What there is to say of a file. Its messages point into texts that the
/// workspace keeps.
struct Checked {
  Diagnostics diagnostics;
  std::string report;  ///< what is in it, for people
  bool good = false;   ///< no error stands
  /// The lesson, where it is one and could be read.
  std::unique_ptr<PreparedLesson> lesson;
};

/// Looks at a lesson, a class or a sequence. Throws MachineError.
Checked check_file(Workspace& workspace, const CommandLine& line,
                   const std::string& path);

}  // namespace sheaf
