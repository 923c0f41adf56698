#include "files/disk_output.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <new>
#include <string>
#include <system_error>
#include <tuple>

#include "files/file_rights.h"
#include "files/interrupt.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view kPrefix = ".sheaf-writing-";
constexpr std::size_t kSigns = 6;

// The system has said why.
[[noreturn]] void fail(const FilePath& path) {
  fail_to_write(path, std::strerror(errno));
}

FilePath folder_of(const FilePath& target) {
  const FilePath parent = target.parent_path();
  return parent.empty() ? FilePath(".") : parent;
}

// A name as `add` makes them.
bool is_temporary(const std::string& name) {
  return name.size() == kPrefix.size() + kSigns && name.starts_with(kPrefix) &&
         std::all_of(name.begin() + kPrefix.size(), name.end(), [](char c) {
           return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') ||
                  (c >= 'a' && c <= 'z');
         });
}

void remove_leftover(const FilePath& path) {
  const Descriptor file(
      ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK));
  struct stat about {};
  const bool is_free = file && ::fstat(file.number(), &about) == 0 &&
                       S_ISREG(about.st_mode) &&
                       ::flock(file.number(), LOCK_EX | LOCK_NB) == 0;
  if (is_free) ::unlink(path.c_str());
}

void remove_leftovers(const FilePath& folder) {
  std::error_code fault;
  fs::directory_iterator entry(folder, fault);
  for (; !fault && entry != fs::directory_iterator(); entry.increment(fault)) {
    if (is_temporary(entry->path().filename().string())) {
      remove_leftover(entry->path());
    }
  }
}

// What a link leads to; anything else is itself.
FilePath behind_links(const FilePath& target) {
  std::error_code fault;
  if (!fs::is_symlink(fs::symlink_status(target, fault))) return target;
  FilePath real = fs::canonical(target, fault);
  if (fault == std::errc::not_enough_memory) throw std::bad_alloc();
  if (fault) {
    fail_to_write(target, "it is a link to something that is not there");
  }
  return real;
}

// Makes and locks a file beside the target; it is on the list of what an
// interrupt removes. Another run may take a file without a lock for a leftover,
// so the lock counts only if the file is still there.
Descriptor make_temporary(const FilePath& target, FilePath& path) {
  const HoldInterrupts hold;
  for (;;) {
    std::string name =
        (target.parent_path() / kPrefix).string() + std::string(kSigns, 'X');
    Descriptor file(::mkostemp(name.data(), O_CLOEXEC));
    if (!file) fail(target);
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

void write_all(int file, std::string_view bytes, const FilePath& target) {
  while (!bytes.empty()) {
    const ssize_t put = ::write(file, bytes.data(), bytes.size());
    if (put < 0 && errno == EINTR) continue;
    if (put <= 0) fail(target);
    bytes.remove_prefix(static_cast<std::size_t>(put));
  }
}

// Some file systems say that a disk is full only when a file is closed; the
// file itself stays open for its lock.
bool has_been_taken(int file) {
  const int again = ::dup(file);
  return again >= 0 && ::close(again) == 0;
}

}  // namespace

DiskOutput::~DiskOutput() {
  const HoldInterrupts hold;
  for (const Pending& p : pending_) {
    ::unlink(p.temporary.c_str());
    keep_on_interrupt(p.temporary.string());
  }
}

void DiskOutput::open_folder(const FilePath& path) {
  std::error_code fault;
  fs::create_directories(path, fault);
  if (fault) {
    throw MachineError(fmt::format("cannot make the folder {}: {}",
                                   path.string(), fault.message()));
  }
  Descriptor file(::open(path.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  struct stat about {};
  if (!file || ::fstat(file.number(), &about) != 0) fail(path);
  // A folder may have several names, and is held once.
  const bool known = std::ranges::any_of(folders_, [&](const Folder& folder) {
    return folder.device == about.st_dev && folder.number == about.st_ino;
  });
  if (known) return;
  remove_leftovers(path);
  folders_.push_back({path, about.st_dev, about.st_ino, std::move(file)});
}

// The file that is in the way, open; none where nothing is. Only a file may be
// replaced: not a folder, nor a device (`--deps /dev/null`).
std::unique_ptr<OpenDescriptor> DiskOutput::open_replaced(Pending& pending) {
  const FilePath& target = pending.target;
  struct stat about {};
  pending.replaces = ::lstat(target.c_str(), &about) == 0;
  if (!pending.replaces && errno != ENOENT && errno != ENOTDIR) {
    fail(target);
  }
  if (pending.replaces && !S_ISREG(about.st_mode)) {
    fail_to_write(target, S_ISDIR(about.st_mode)
                              ? "there is a folder of that name"
                              : "there is something of that name that is not a "
                                "file");
  }
  constexpr mode_t kWrite = S_IWUSR | S_IWGRP | S_IWOTH;
  if (pending.replaces && pending.allowed.before &&
      (about.st_mode & kWrite) == 0) {
    fail_to_write(target, "the file is protected from changes");
  }
  auto file = pending.replaces ? open_for_reading(target, false) : nullptr;
  if (pending.replaces && !file && pending.allowed.before) {
    fail(target);
  }
  check_in_the_way(target, pending.allowed, pending.replaces, file.get());
  return file;
}

void DiskOutput::put(Pending pending, std::string_view bytes) {
  pending.target = behind_links(pending.target);
  const FilePath target = pending.target;
  open_folder(folder_of(target));
  const auto replaced = open_replaced(pending);
  pending_.reserve(pending_.size() + 1);
  pending.file = make_temporary(target, pending.temporary);
  const int file = pending.file.number();
  // Waiting for the disk is for what nobody could make again.
  const auto& form = pending.allowed.form;
  const bool must_last = !form || !form->can_be_made_again;
  must_last_ |= must_last;
  pending_.push_back(std::move(pending));
  write_all(file, bytes, target);
  const bool good = replaced ? keep_rights(replaced->number(), file)
                             : give_usual_rights(file);
  if (!good || !(must_last ? ::fsync(file) == 0 : has_been_taken(file))) {
    fail(target);
  }
}

void DiskOutput::check(const FilePath& target, const OwnForm& form,
                       std::string_view way_out) {
  Pending pending;
  pending.target = behind_links(target);
  pending.allowed.form = form;
  pending.allowed.way_out = way_out;
  open_replaced(pending);
}

void DiskOutput::add(const FilePath& target, std::string_view bytes,
                     const OwnForm& form, std::string_view way_out) {
  Pending pending;
  pending.target = target;
  pending.allowed.form = form;
  pending.allowed.way_out = way_out;
  put(std::move(pending), bytes);
}

void DiskOutput::add_new(const FilePath& target, std::string_view bytes) {
  Pending pending;
  pending.target = target;
  put(std::move(pending), bytes);
}

void DiskOutput::rewrite(const FilePath& target, std::string_view bytes,
                         std::string before) {
  Pending pending;
  pending.target = target;
  pending.allowed.before = std::move(before);
  put(std::move(pending), bytes);
}

// In one order for all runs, so that none waits for another that waits for it.
void DiskOutput::hold_folders() {
  std::ranges::sort(folders_, {}, [](const Folder& folder) {
    return std::tuple(folder.device, folder.number);
  });
  for (const Folder& folder : folders_) {
    while (::flock(folder.file.number(), LOCK_EX) != 0 && errno == EINTR) {
    }
  }
}

// What was not there a moment ago is never replaced, not even where it came
// since then.
void DiskOutput::put_in_place(Pending& pending) {
  open_replaced(pending);
  const char* from = pending.temporary.c_str();
  const char* to = pending.target.c_str();
  if (pending.replaces) {
    if (::rename(from, to) != 0) fail(pending.target);
    return;
  }
  if (::renameat2(AT_FDCWD, from, AT_FDCWD, to, RENAME_NOREPLACE) == 0) return;
  // Not every file system knows how; some know no second names either.
  const bool unknown = errno == EINVAL || errno == ENOSYS;
  if (unknown && ::link(from, to) == 0) {
    ::unlink(from);
    return;
  }
  const bool no_links = errno == EPERM || errno == EOPNOTSUPP;
  if (unknown && no_links && ::access(to, F_OK) != 0 &&
      ::rename(from, to) == 0) {
    return;
  }
  if (errno != EEXIST) fail(pending.target);
  throw FileChanged(fmt::format("{} is there already, and is left alone",
                                pending.target.string()));
}

void DiskOutput::finish() {
  hold_folders();
  const HoldInterrupts hold;
  for (Pending& pending : pending_) open_replaced(pending);
  while (!pending_.empty()) {
    Pending& first = pending_.front();
    put_in_place(first);
    keep_on_interrupt(first.temporary.string());
    pending_.erase(pending_.begin());
    ++placed_;
  }
  // So that the new names too outlast a power cut. Some file systems cannot.
  if (must_last_) {
    for (const Folder& folder : folders_) ::fsync(folder.file.number());
  }
  must_last_ = false;
  folders_.clear();
}

}  // namespace sheaf
