#pragma once

#include <map>
#include <string>
#include <vector>

namespace sheaf::test {

/// What a run of Sheaf left.
struct MemoryOutcome {
  int status = 0;
  std::string results;   ///< standard output
  std::string messages;  ///< standard error
  /// Files that are there afterwards and were not before, or are others now.
  std::map<std::string, std::string> written;
  /// What lies on the disk afterwards, where nothing should.
  std::vector<std::string> left_over;
};

/// Runs Sheaf in this process over files in memory, in an empty folder; what
/// comes with Sheaf is read from the disk.
MemoryOutcome run_in_memory(const std::map<std::string, std::string>& files,
                            const std::vector<std::string>& arguments);

}  // namespace sheaf::test
