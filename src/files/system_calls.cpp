#include "files/system_calls.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/inotify.h>
#include <sys/mman.h>
#include <sys/xattr.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>

namespace sheaf {

namespace {

// Set before there is a second thread, and null but in tests.
SystemFault asked_before_calls = nullptr;

// A call that an interrupt has ended is made again; where that never stops, it
// is a failure like any other.
constexpr int kMostTries = 100;

// Whether a call is to fail; errno says why.
bool fails(SystemCall call) {
  if (asked_before_calls == nullptr) return false;
  const int fault = asked_before_calls(call);
  if (fault != 0) errno = fault;
  return fault != 0;
}

template <typename Result, typename Call>
Result tried(SystemCall kind, Result failed, Call call) {
  Result result = failed;
  for (int tries = 0; tries < kMostTries; ++tries) {
    result = fails(kind) ? failed : call();
    if (result != failed || errno != EINTR) break;
  }
  return result;
}

}  // namespace

void let_system_calls_fail(SystemFault fault) { asked_before_calls = fault; }

namespace system_calls {

int open(const char* path, int flags) {
  return tried(SystemCall::open, -1, [&] { return ::open(path, flags); });
}
int make_unique(char* name, int flags) {
  return fails(SystemCall::make) ? -1 : ::mkostemp(name, flags);
}
// It is closed whatever comes of it, and an interrupt loses nothing.
int close(int file) {
  const int done = ::close(file);
  if (!fails(SystemCall::close) && done == 0) return 0;
  return errno == EINTR ? 0 : -1;
}
int duplicate(int file) {
  return tried(SystemCall::open, -1, [&] { return ::dup(file); });
}

ssize_t read(int file, void* bytes, std::size_t most) {
  return tried(SystemCall::read, ssize_t{-1},
               [&] { return ::read(file, bytes, most); });
}
ssize_t read_typed(int file, void* bytes, std::size_t most) {
  return fails(SystemCall::read) ? -1 : ::read(file, bytes, most);
}
ssize_t read_at(int file, void* bytes, std::size_t most, off_t begin) {
  return tried(SystemCall::read, ssize_t{-1},
               [&] { return ::pread(file, bytes, most, begin); });
}
ssize_t write(int file, const void* bytes, std::size_t count) {
  return tried(SystemCall::write, ssize_t{-1},
               [&] { return ::write(file, bytes, count); });
}
int sync(int file) {
  return tried(SystemCall::sync, -1, [&] { return ::fsync(file); });
}
void* map(std::size_t size, int file) {
  return tried(SystemCall::map, MAP_FAILED, [&] {
    return ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, file, 0);
  });
}

int stat(const char* path, struct stat* about) {
  return tried(SystemCall::stat, -1, [&] { return ::stat(path, about); });
}
int lstat(const char* path, struct stat* about) {
  return tried(SystemCall::stat, -1, [&] { return ::lstat(path, about); });
}
int fstat(int file, struct stat* about) {
  return tried(SystemCall::stat, -1, [&] { return ::fstat(file, about); });
}
int look_for(const char* path) {
  return tried(SystemCall::stat, -1, [&] { return ::access(path, F_OK); });
}
ssize_t read_link(const char* path, char* bytes, std::size_t most) {
  return tried(SystemCall::real, ssize_t{-1},
               [&] { return ::readlink(path, bytes, most); });
}
char* real_path(const char* path) {
  char* const none = nullptr;
  return tried(SystemCall::real, none,
               [&] { return ::realpath(path, nullptr); });
}
char* this_folder(char* bytes, std::size_t most) {
  char* const none = nullptr;
  return tried(SystemCall::real, none, [&] { return ::getcwd(bytes, most); });
}

DIR* list(int file) {
  DIR* const none = nullptr;
  return tried(SystemCall::list, none, [&] { return ::fdopendir(file); });
}
const dirent* next(DIR* folder) {
  dirent* const none = nullptr;
  return tried(SystemCall::list, none, [&] {
    errno = 0;
    return ::readdir(folder);
  });
}
int end_list(DIR* folder) {
  const int done = ::closedir(folder);
  return fails(SystemCall::close) ? -1 : done;
}

int mkdir(const char* path) {
  return tried(SystemCall::mkdir, -1, [&] { return ::mkdir(path, 0777); });
}
int rename(const char* from, const char* to) {
  return tried(SystemCall::rename, -1, [&] { return ::rename(from, to); });
}
int rename_with(const char* from, const char* to, unsigned flags) {
  return tried(SystemCall::rename, -1, [&] {
    return ::renameat2(AT_FDCWD, from, AT_FDCWD, to, flags);
  });
}
int link(const char* from, const char* to) {
  return tried(SystemCall::link, -1, [&] { return ::link(from, to); });
}
int unlink(const char* path) {
  return tried(SystemCall::unlink, -1, [&] { return ::unlink(path); });
}
int rmdir(const char* path) {
  return tried(SystemCall::unlink, -1, [&] { return ::rmdir(path); });
}
int lock(int file, int how) {
  return tried(SystemCall::lock, -1, [&] { return ::flock(file, how); });
}
#ifdef F_OFD_SETLK
int mark_in_use(int file) {
  return tried(SystemCall::lock, -1, [&] {
    struct flock all {};
    all.l_type = F_RDLCK;
    return ::fcntl(file, F_OFD_SETLK, &all);
  });
}
int is_in_use(int file) {
  return tried(SystemCall::lock, -1, [&] {
    struct flock all {};
    all.l_type = F_WRLCK;
    if (::fcntl(file, F_OFD_GETLK, &all) != 0) return -1;
    return all.l_type == F_UNLCK ? 0 : 1;
  });
}
#else
int mark_in_use(int) { return -1; }
int is_in_use(int) { return -1; }
#endif

int chmod(int file, mode_t mode) {
  return tried(SystemCall::chmod, -1, [&] { return ::fchmod(file, mode); });
}
int chown(int file, uid_t owner, gid_t group) {
  return tried(SystemCall::chown, -1,
               [&] { return ::fchown(file, owner, group); });
}
ssize_t get_attribute(int file, const char* name, void* bytes,
                      std::size_t most) {
  return tried(SystemCall::attribute, ssize_t{-1},
               [&] { return ::fgetxattr(file, name, bytes, most); });
}
ssize_t list_attributes(int file, char* bytes, std::size_t most) {
  return tried(SystemCall::attribute, ssize_t{-1},
               [&] { return ::flistxattr(file, bytes, most); });
}
int set_attribute(int file, const char* name, const void* bytes,
                  std::size_t count) {
  return tried(SystemCall::attribute, -1,
               [&] { return ::fsetxattr(file, name, bytes, count, 0); });
}
int remove_attribute(int file, const char* name) {
  return tried(SystemCall::attribute, -1,
               [&] { return ::fremovexattr(file, name); });
}

int begin_watching() {
  return tried(SystemCall::watch, -1,
               [] { return ::inotify_init1(IN_CLOEXEC | IN_NONBLOCK); });
}
int watch(int queue, const char* path, std::uint32_t what) {
  return tried(SystemCall::watch, -1,
               [&] { return ::inotify_add_watch(queue, path, what); });
}
int end_watch(int queue, int number) {
  return tried(SystemCall::watch, -1,
               [&] { return ::inotify_rm_watch(queue, number); });
}
int wait(pollfd* files, nfds_t count, int milliseconds) {
  return tried(SystemCall::wait, -1,
               [&] { return ::poll(files, count, milliseconds); });
}

}  // namespace system_calls

}  // namespace sheaf
