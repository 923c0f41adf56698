#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/command_line.h"
#include "driver/workspace.h"
#include "files/path.h"

namespace sheaf {

/// One lesson or class that `build` makes pages of.
struct BuildJob {
  std::string path;
  /// The file's text where it was read; belongs to the workspace.
  const SourceFile* file = nullptr;
  bool is_class = false;
  /// It stands in a folder that was named, or `--if-needed` was said: its pages
  /// are made again only where they would be others.
  bool only_if_needed = false;
  /// The folder that its pages go to.
  FilePath target;
  /// Of a class: the lesson of those who have none of their own.
  std::string lesson = {};
};

/// What the arguments name: files, and of each folder the lessons and classes
/// that lie in it, not those in its folders. What else lies there (sequences,
/// layouts, records, hidden files) is passed over, and so is a class in which
/// nobody has a lesson, which is said. Nothing comes back where two of them
/// would be written to one place, or one to none, which is said as well.
/// Throws MachineError where a folder cannot be read or has no lesson.
std::optional<std::vector<BuildJob>> build_jobs(Workspace& workspace,
                                                const CommandLine& line);

}  // namespace sheaf
