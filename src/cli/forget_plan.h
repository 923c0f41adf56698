#pragma once

#include <deque>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "cli/command_line.h"
#include "driver/own_files.h"
#include "files/path.h"

namespace sheaf {

/// What `forget` is to do, and what it leaves to people. Lines are as they are
/// printed.
struct ForgetPlan {
  /// A file that stays, without the learner.
  struct Change {
    FilePath path;              ///< never a link
    std::string before, after;  ///< all bytes of it
    std::vector<std::string> lines;
  };
  /// A file that Sheaf made and that goes.
  struct Deletion {
    FilePath path;
    OwnKind kind;
    /// All bytes of it, where it goes only as long as it is just so.
    std::optional<std::string> before;
  };
  /// What is left: said before the change and after it, where lines have moved.
  struct Left {
    std::string before, after;
  };

  std::vector<Change> changes;
  std::vector<Deletion> deletions;
  /// Folders in which nothing will be left, the deepest first.
  std::vector<FilePath> empty_folders;
  std::vector<Left> left;

  bool has_nothing() const {
    return changes.empty() && deletions.empty() && empty_folders.empty() &&
           left.empty();
  }
};

/// Reads all files and makes the plan. What cannot be read is reported, or
/// thrown as MachineError; the plan is to be used only if no error stands.
/// `sources` keeps the files that the reports are about.
ForgetPlan plan_forgetting(const CommandLine& line,
                           std::deque<SourceFile>& sources,
                           Diagnostics& diagnostics);

}  // namespace sheaf
