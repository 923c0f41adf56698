#include "packet/shared_memory.h"

namespace sheaf {

SheetMemory SharedMemory::known() const {
  const std::lock_guard lock(lock_);
  return memory_;
}

// Not what is worked out for the teacher, and what depends on the layout.
void SharedMemory::keep(const SheetMemory& memory) {
  const std::lock_guard lock(lock_);
  const auto add = [](const auto& from, auto& to) {
    to.insert(from.begin(), from.end());
  };
  add(memory.sound_sorts, memory_.sound_sorts);
  add(memory.heard_sorts, memory_.heard_sorts);
  add(memory.chains, memory_.chains);
  add(memory.near_pairs, memory_.near_pairs);
  add(memory.ear_days, memory_.ear_days);
}

}  // namespace sheaf
