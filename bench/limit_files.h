#pragma once

#include <functional>
#include <string>
#include <vector>

namespace sheaf::bench {

/// Files as large as Sheaf takes them, of invented content, and the command
/// lines that read them. They are the same on every machine.

struct LimitRun {
  std::string name;  ///< what is at its limit, for a table
  /// What Sheaf is called with in the folder of the files.
  std::vector<std::string> arguments;
  /// Does in the folder what has to be done before; nothing where it is empty.
  std::function<void(const std::string& folder)> before = {};
  /// What is sent to its standard input, each when it has done with the one
  /// before.
  std::vector<std::string> input = {};
  /// A file that is saved once more when it waits; then it is interrupted.
  std::string saved = {};
};

/// Writes the files into a folder that is there and empty. `data` is the
/// folder src/data, from which the words are taken. Throws std::runtime_error.
void write_limit_files(const std::string& folder, const std::string& data);

/// Every verb with the files at their limits, which are in the folder.
std::vector<LimitRun> limit_runs(const std::string& folder);

}  // namespace sheaf::bench
