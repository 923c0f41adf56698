#pragma once

#include <string>
#include <vector>

namespace sheaf::testing_support {

/// What a program of another maker says of a file.
struct Outcome {
  int status = -1;  ///< exit code; -1 where it did not run or was killed
  std::string out;  ///< standard output and standard error together
};

/// Runs a program found on the path; no shell reads the arguments.
Outcome run_program(const std::vector<std::string>& arguments);

/// What a run may be given to bear; nothing is where it is zero.
struct Burden {
  int signal = 0;  ///< sent after `microseconds`
  long microseconds = 0;
  unsigned long address_space = 0;  ///< bytes
  unsigned long file_size = 0;      ///< bytes that a file may grow to
};

/// As above, under a burden.
Outcome run_program(const std::vector<std::string>& arguments,
                    const Burden& burden);

/// A folder that goes away with all that is in it.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;

  /// Writes a file into it; returns its path.
  std::string write(const std::string& name, const std::string& bytes) const;
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

std::string file_bytes(const std::string& path);

}  // namespace sheaf::testing_support
