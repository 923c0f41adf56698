#pragma once

#include <csignal>
#include <string>

namespace sheaf {

/// From now on an interrupt (Ctrl-C, a polite kill, a closed terminal) removes
/// the temporary files that are listed here and ends the run with this exit
/// code. What the caller had told the system to ignore stays ignored. A file
/// that grows over the user's limit is reported as a failure to write instead
/// of ending the run.
void end_cleanly_on_interrupt(int exit_code);

/// While one lives, interrupts wait.
class HoldInterrupts {
 public:
  HoldInterrupts();
  ~HoldInterrupts();
  HoldInterrupts(const HoldInterrupts&) = delete;
  HoldInterrupts& operator=(const HoldInterrupts&) = delete;

 private:
  sigset_t before_{};
};

/// Lists a file for removal, or takes it off the list. Interrupts must be held.
void remove_on_interrupt(const std::string& path);
void keep_on_interrupt(const std::string& path);

}  // namespace sheaf
