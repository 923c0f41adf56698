#include "files/used_folder.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>

#include <cerrno>
#include <chrono>
#include <thread>

#include "files/system_calls.h"

namespace sheaf {

namespace {

constexpr int kMostLooks = 100;

Descriptor open_folder(const FilePath& folder) {
  return Descriptor(
      system_calls::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
}

bool is_still_there(int file, const FilePath& folder) {
  struct stat own {
  }, there{};
  return system_calls::fstat(file, &own) == 0 &&
         system_calls::stat(folder.c_str(), &there) == 0 &&
         own.st_dev == there.st_dev && own.st_ino == there.st_ino;
}

// The lock of the whole folder, so that the mark and the look at it do not
// cross; through a number of its own, which frees it whatever happens. Whoever
// removes a folder has it for a moment; who has it for longer puts files in
// their places there, and is not waited for. Drives without locks have neither,
// and then runs beside each other are on their own.
bool lock_soon(int file) {
  constexpr int kMostWaits = 20;
  for (int waits = 0; waits < kMostWaits; ++waits) {
    if (system_calls::lock(file, LOCK_EX | LOCK_NB) == 0) return true;
    if (errno != EWOULDBLOCK) return false;
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  return false;
}

}  // namespace

Descriptor use_folder(const FilePath& folder) {
  for (int tries = 1;; ++tries) {
    Descriptor file = open_folder(folder);
    if (!file) return file;
    const Descriptor guard = open_folder(folder);
    if (guard) lock_soon(guard.number());
    system_calls::mark_in_use(file.number());
    if (is_still_there(file.number(), folder) || tries == kMostLooks) {
      return file;
    }
  }
}

void remove_unused(const FilePath& folder) {
  const Descriptor file = open_folder(folder);
  if (!file) return;
  if (system_calls::lock(file.number(), LOCK_EX | LOCK_NB) != 0 &&
      errno == EWOULDBLOCK) {
    return;
  }
  if (system_calls::is_in_use(file.number()) == 1) return;
  system_calls::rmdir(folder.c_str());
}

}  // namespace sheaf
