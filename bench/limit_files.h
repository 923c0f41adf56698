#pragma once

#include <string>
#include <vector>

namespace sheaf::bench {

/// Files as large as Sheaf takes them, of invented content, and the command
/// lines that read them. They are the same on every machine.

struct LimitRun {
  std::string name;  ///< what is at its limit, for a table
  /// What Sheaf is called with in the folder of the files.
  std::vector<std::string> arguments;
};

/// Writes the files into a folder that is there and empty. `data` is the
/// folder src/data, from which the words are taken. Throws std::runtime_error.
void write_limit_files(const std::string& folder, const std::string& data);

/// Every verb with the files at their limits.
std::vector<LimitRun> limit_runs();

}  // namespace sheaf::bench
