#pragma once

#include <sys/types.h>

#include <functional>
#include <string>
#include <vector>

namespace sheaf::testing_support {

/// A program that runs beside the test, with a pipe for each of its standard
/// streams, as an editor has it. It is ended with the object.
class RunningProgram {
 public:
  /// Starts a program in a folder; throws where that cannot be done.
  RunningProgram(const std::vector<std::string>& arguments,
                 const std::string& folder);
  ~RunningProgram();
  RunningProgram(const RunningProgram&) = delete;
  RunningProgram& operator=(const RunningProgram&) = delete;

  /// Writes to its standard input; false where it reads no more.
  bool write(const std::string& bytes);
  /// Reads on until `enough` says so of all that came; false where the program
  /// ended before, or half a minute went by.
  bool read_until(const std::function<bool()>& enough);
  /// Ends its input, sends a signal (none if 0), reads the rest. The exit code,
  /// or -1 where something killed it.
  int end(int signal = 0);

  /// What came so far.
  const std::string& results() const { return results_; }
  const std::string& messages() const { return messages_; }

 private:
  bool read_some();
  static void close_end(int& end);

  pid_t child_ = -1;
  int to_ = -1, results_end_ = -1, messages_end_ = -1;
  std::string results_, messages_;
};

}  // namespace sheaf::testing_support
