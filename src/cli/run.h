#pragma once

namespace sheaf {

/// Reads a command line and does what it says: messages to standard error,
/// results to standard output and to `disk()`. The exit code of exit_codes.h;
/// nothing is thrown.
int run_command(int argc, char** argv);

}  // namespace sheaf
