#include "files/used_folder.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>

#include <cerrno>

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

}  // namespace

// The lock of the whole folder is held for a moment, so that the other mark and
// the look at it do not cross; through a number of its own, which frees it
// whatever happens. Drives without locks have neither, and then runs beside
// each other are on their own.
Descriptor use_folder(const FilePath& folder) {
  for (int tries = 1;; ++tries) {
    Descriptor file = open_folder(folder);
    if (!file) return file;
    const Descriptor guard = open_folder(folder);
    if (guard) system_calls::lock(guard.number(), LOCK_EX);
    system_calls::mark_in_use(file.number());
    if (is_still_there(file.number(), folder) || tries == kMostLooks) {
      return file;
    }
  }
}

void remove_unused(const FilePath& folder) {
  const Descriptor file = open_folder(folder);
  if (!file) return;
  system_calls::lock(file.number(), LOCK_EX);
  if (system_calls::is_in_use(file.number()) == 1) return;
  system_calls::rmdir(folder.c_str());
}

}  // namespace sheaf
