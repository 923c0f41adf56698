#pragma once

#include <mutex>

#include "sheets/sheet.h"

namespace sheaf {

/// What the packets of several learners work out alike: those who have the same
/// lesson with the same words to work on, and the same pictures. It is searched
/// for in the whole word list, which takes longer than all other work on a
/// packet. May be used by several threads.
class SharedMemory {
 public:
  /// What is known by now, to begin a packet with.
  SheetMemory known() const;
  /// Keeps what a packet has worked out besides, as far as it is the same for
  /// all of them.
  void keep(const SheetMemory& memory);

 private:
  mutable std::mutex lock_;
  SheetMemory memory_;
};

}  // namespace sheaf
