#pragma once

#include <dirent.h>
#include <poll.h>
#include <sys/stat.h>
#include <sys/types.h>

#include <cstddef>
#include <cstdint>

namespace sheaf {

/// The calls of the system that files are read and written with, by what they
/// do. One kind may stand for several of the system's own names.
enum class SystemCall {
  open,
  make,  ///< of a new file
  read,
  write,
  sync,
  rename,
  link,
  unlink,
  mkdir,
  stat,
  chmod,
  chown,
  attribute,
  lock,
  close,
  list,
  real,
  map,
  watch,
  wait
};

/// Asked before each call: the error (as in errno) that it ends with, or 0 for
/// it to go on. A file that could not be closed is closed, as on Linux.
using SystemFault = int (*)(SystemCall call);

/// For tests: from now on every call asks; null for none. To be set before
/// there is a second thread.
void let_system_calls_fail(SystemFault fault);

/// The calls themselves, as the system has them (`man 2`); a name that takes a
/// folder's number or an option which is the same everywhere is left out.
/// `files` uses no others, so that tests can let each of them fail. What an
/// interrupt ends is begun again, but not without end.
namespace system_calls {

int open(const char* path, int flags);
/// Makes a new file and puts six signs in place of the X's. Ends at an
/// interrupt, after which the name is to be written anew.
int make_unique(char* name, int flags);
int close(int file);
int duplicate(int file);

ssize_t read(int file, void* bytes, std::size_t most);
/// Ends at an interrupt.
ssize_t read_typed(int file, void* bytes, std::size_t most);
ssize_t read_at(int file, void* bytes, std::size_t most, off_t begin);
ssize_t write(int file, const void* bytes, std::size_t count);
int sync(int file);
void* map(std::size_t size, int file);

int stat(const char* path, struct stat* about);
int lstat(const char* path, struct stat* about);
int fstat(int file, struct stat* about);
/// Whether there is anything of that name.
int look_for(const char* path);
/// What a link leads to; the number of its bytes.
ssize_t read_link(const char* path, char* bytes, std::size_t most);
/// The name without links, to be freed.
char* real_path(const char* path);
char* this_folder(char* bytes, std::size_t most);

/// Takes the file over, except where it fails.
DIR* list(int file);
/// Null at the end, where errno is 0, and where it fails.
const dirent* next(DIR* folder);
int end_list(DIR* folder);

int mkdir(const char* path);
int rename(const char* from, const char* to);
/// With the flags of renameat2.
int rename_with(const char* from, const char* to, unsigned flags);
int link(const char* from, const char* to);
int unlink(const char* path);
int rmdir(const char* path);
int lock(int file, int how);
/// Other than `lock`, and seen by `is_in_use` through any other number of the
/// same file, until this one is closed.
int mark_in_use(int file);
/// 1 or 0; -1 where it cannot be known.
int is_in_use(int file);

int chmod(int file, mode_t mode);
int chown(int file, uid_t owner, gid_t group);
ssize_t get_attribute(int file, const char* name, void* bytes,
                      std::size_t most);
ssize_t list_attributes(int file, char* bytes, std::size_t most);
int set_attribute(int file, const char* name, const void* bytes,
                  std::size_t count);
int remove_attribute(int file, const char* name);

int begin_watching();
int watch(int queue, const char* path, std::uint32_t what);
int end_watch(int queue, int number);
int wait(pollfd* files, nfds_t count, int milliseconds);

}  // namespace system_calls

}  // namespace sheaf
