#pragma once

#include <cerrno>
#include <new>

namespace sheaf {

/// A library in C may go on without what it had no memory for, and what it
/// gives back then looks whole: a font without its table of pairs, a text
/// without a letter. But `malloc` leaves a trace in errno (POSIX), which
/// nothing sets back. Made before such calls and checked after them.
class MemoryGuard {
 public:
  MemoryGuard() { errno = 0; }
  /// Throws std::bad_alloc where memory was lacking since.
  static void check() {
    if (errno == ENOMEM) throw std::bad_alloc();
  }
};

}  // namespace sheaf
