#pragma once

#include <csignal>
#include <string>
#include <string_view>

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

/// While one lives, an interrupt ends neither the run nor what it is doing; it
/// only ends a wait for input, and is remembered. One at a time.
class CatchInterrupts {
 public:
  CatchInterrupts();
  ~CatchInterrupts();
  CatchInterrupts(const CatchInterrupts&) = delete;
  CatchInterrupts& operator=(const CatchInterrupts&) = delete;

  /// Whether one has come.
  static bool came();

 private:
  struct sigaction before_[3]{};
};

/// Lists a file for removal, or takes it off the list, which needs no memory.
/// Interrupts must be held.
void remove_on_interrupt(const std::string& path);
void keep_on_interrupt(std::string_view path);

}  // namespace sheaf
