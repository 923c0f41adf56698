#include <malloc.h>

#include "cli/exit_codes.h"
#include "cli/run.h"
#include "files/interrupt.h"
#include "files/surroundings.h"

namespace sheaf {
namespace {

// The C library gives memory back after every document and asks for it again
// for the next: each time, the system clears the pages. A run is short.
void keep_freed_memory() {
#ifdef __GLIBC__
  constexpr int kFreed = 64 << 20;
  ::mallopt(M_TRIM_THRESHOLD, kFreed);
  ::mallopt(M_MMAP_THRESHOLD, kFreed / 2);
#endif
}

}  // namespace
}  // namespace sheaf

int main(int argc, char** argv) {
  sheaf::keep_freed_memory();
  sheaf::fill_closed_streams();
  sheaf::end_cleanly_on_interrupt(sheaf::kInterrupted);
  return sheaf::run_command(argc, argv);
}
