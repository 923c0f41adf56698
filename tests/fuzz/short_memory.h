#pragma once

#include <cstdint>
#include <cstdlib>
#include <new>
#include <utility>

#include "base/error.h"

namespace sheaf::fuzz {

/// While one lives, this thread's `operator new` fails where the byte says:
/// never below 128; else at an allocation from the 1st to some 60,000th, once,
/// or from there on for good. `operator new` is replaced in short_memory.cpp,
/// for the whole program and all libraries that are linked to it.
class ShortMemory {
 public:
  explicit ShortMemory(std::uint8_t byte);
  ~ShortMemory();
  ShortMemory(const ShortMemory&) = delete;
  ShortMemory& operator=(const ShortMemory&) = delete;

  /// Whether it has failed.
  static bool failed();
};

/// Does the work with as much memory as the byte says. It may throw what the
/// machine refuses, and no memory where none was refused is a fault.
template <typename Work>
void run_short(std::uint8_t byte, Work work) {
  const ShortMemory memory(byte);
  try {
    work();
  } catch (const MachineError& fault) {
    if (*fault.what() == '\0') std::abort();
  } catch (const std::bad_alloc&) {
    if (!ShortMemory::failed()) std::abort();
  }
}

}  // namespace sheaf::fuzz
