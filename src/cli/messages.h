#pragma once

#include <span>
#include <string>

#include "base/diagnostics.h"

namespace sheaf {

/// Prints messages to standard error; colour only on a terminal.
void print(const Diagnostics& diagnostics);

/// Prints what is wrong with a command line; true where nothing is.
bool print_faults(std::span<const std::string> faults);

/// Prints what a run has left behind and forgets it; whether there was any.
bool print_left_behind();

/// Of records in which nobody is marked.
void print_nobody_marked();

}  // namespace sheaf
