#include "cli/output_files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <string>

#include "base/error.h"
#include "cli/interrupt.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view kPrefix = ".sheaf-";
constexpr std::size_t kSigns = 6;

[[noreturn]] void fail_to_write(const fs::path& path, std::string_view why) {
  throw MachineError(fmt::format("cannot write {}: {}", path.string(), why));
}

[[noreturn]] void fail_to_write(const fs::path& path) {
  fail_to_write(path, std::strerror(errno));
}

fs::path folder_of(const fs::path& target) {
  const fs::path parent = target.parent_path();
  return parent.empty() ? fs::path(".") : parent;
}

// A name as `add` makes them.
bool is_temporary(const std::string& name) {
  return name.size() == kPrefix.size() + kSigns && name.starts_with(kPrefix) &&
         std::all_of(name.begin() + kPrefix.size(), name.end(), [](char c) {
           return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') ||
                  (c >= 'a' && c <= 'z');
         });
}

void remove_leftover(const fs::path& path) {
  const Descriptor file(
      ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK));
  struct stat about {};
  const bool is_free = file && ::fstat(file.number(), &about) == 0 &&
                       S_ISREG(about.st_mode) &&
                       ::flock(file.number(), LOCK_EX | LOCK_NB) == 0;
  if (is_free) ::unlink(path.c_str());
}

void remove_leftovers(const fs::path& folder) {
  std::error_code fault;
  fs::directory_iterator entry(folder, fault);
  for (; !fault && entry != fs::directory_iterator(); entry.increment(fault)) {
    if (is_temporary(entry->path().filename().string())) {
      remove_leftover(entry->path());
    }
  }
}

// Only a file may be replaced: not a folder, nor a device (`--deps /dev/null`).
void check_target(const fs::path& target) {
  struct stat about {};
  if (::stat(target.c_str(), &about) != 0 || S_ISREG(about.st_mode)) return;
  fail_to_write(target, S_ISDIR(about.st_mode)
                            ? "there is a folder of that name"
                            : "there is something of that name that is not a "
                              "file");
}

// Makes and locks a file beside the target; it is on the list of what an
// interrupt removes. Another run may take a file without a lock for a leftover,
// so the lock counts only if the file is still there.
Descriptor make_temporary(const fs::path& target, fs::path& path) {
  const HoldInterrupts hold;
  for (;;) {
    std::string name =
        (target.parent_path() / kPrefix).string() + std::string(kSigns, 'X');
    Descriptor file(::mkostemp(name.data(), O_CLOEXEC));
    if (!file) fail_to_write(target);
    path = name;
    struct stat about {};
    const bool locked = ::flock(file.number(), LOCK_EX | LOCK_NB) == 0;
    const bool taken =
        (!locked && errno == EWOULDBLOCK) ||
        (::fstat(file.number(), &about) == 0 && about.st_nlink == 0);
    if (taken) continue;
    remove_on_interrupt(name);
    return file;
  }
}

void write_all(int file, std::string_view bytes, const fs::path& target) {
  while (!bytes.empty()) {
    const ssize_t put = ::write(file, bytes.data(), bytes.size());
    if (put < 0 && errno == EINTR) continue;
    if (put <= 0) fail_to_write(target);
    bytes.remove_prefix(static_cast<std::size_t>(put));
  }
  // A temporary file is made for its owner alone; the result is to have the
  // rights of any new file.
  const mode_t mask = ::umask(0);
  ::umask(mask);
  if (::fchmod(file, 0666 & ~mask) != 0 || ::fsync(file) != 0) {
    fail_to_write(target);
  }
}

}  // namespace

OutputFiles::~OutputFiles() {
  const HoldInterrupts hold;
  for (const Pending& p : pending_) {
    ::unlink(p.temporary.c_str());
    keep_on_interrupt(p.temporary.string());
  }
}

void OutputFiles::open_folder(const fs::path& path) {
  if (std::ranges::find(folders_, path, &Folder::path) != folders_.end()) {
    return;
  }
  std::error_code fault;
  fs::create_directories(path, fault);
  if (fault) {
    throw MachineError(fmt::format("cannot make the folder {}: {}",
                                   path.string(), fault.message()));
  }
  Descriptor file(::open(path.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!file) fail_to_write(path);
  remove_leftovers(path);
  folders_.push_back({path, std::move(file)});
}

void OutputFiles::add(const fs::path& target, std::string_view bytes) {
  open_folder(folder_of(target));
  check_target(target);
  pending_.reserve(pending_.size() + 1);
  fs::path temporary;
  Descriptor file = make_temporary(target, temporary);
  pending_.push_back({std::move(temporary), target, std::move(file)});
  write_all(pending_.back().file.number(), bytes, target);
}

// In one order for all runs, so that none waits for another that waits for it.
void OutputFiles::hold_folders() {
  std::ranges::sort(folders_, {}, &Folder::path);
  for (const Folder& folder : folders_) {
    while (::flock(folder.file.number(), LOCK_EX) != 0 && errno == EINTR) {
    }
  }
}

void OutputFiles::finish() {
  hold_folders();
  const HoldInterrupts hold;
  for (const Pending& p : pending_) check_target(p.target);
  while (!pending_.empty()) {
    const Pending& first = pending_.front();
    if (::rename(first.temporary.c_str(), first.target.c_str()) != 0) {
      fail_to_write(first.target);
    }
    keep_on_interrupt(first.temporary.string());
    pending_.erase(pending_.begin());
  }
  // So that the new names too outlast a power cut. Some file systems cannot.
  for (const Folder& folder : folders_) ::fsync(folder.file.number());
  folders_.clear();
}

}  // namespace sheaf
