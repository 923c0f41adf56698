#pragma once

#include <optional>
#include <string>

namespace sheaf {

/// What a run is given besides files: its standard streams and its environment.

/// A closed standard stream would be the first file that Sheaf opens, and what
/// is meant for the one would land in the other. In its place comes one that
/// can be neither read nor written. To be called first of all.
void fill_closed_streams();

/// Reads standard input to its end, and no further than one byte over the
/// limit. Throws MachineError where it cannot be read.
std::string read_standard_input(std::size_t limit);

/// Standard input, a line at a time, as someone types it.
class InputLines {
 public:
  /// The next line without its end, cut off at `kLongest` bytes; nothing at the
  /// end of the input, and where an interrupt came that `CatchInterrupts` has
  /// caught.
  std::optional<std::string> next();
  static constexpr std::size_t kLongest = 4096;

 private:
  std::string waiting_;
  bool ended_ = false;
};

/// Whether standard error, where messages go, is a terminal.
bool messages_go_to_terminal();
/// Whether they may be coloured, too: `NO_COLOR` is not set.
bool messages_may_have_colour();

}  // namespace sheaf
