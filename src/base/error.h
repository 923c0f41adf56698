#pragma once

#include <stdexcept>

namespace sheaf {

/// The machine would not do what was asked: a file that cannot be read or
/// written, a font or the word list missing, no memory. The text is one clear
/// sentence for a person. Caught in `main` only, which ends with exit code 3.
/// Faults in a teacher's files are never thrown; they go to `Diagnostics`.
class MachineError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace sheaf
