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

#include "files/disk_names.h"
#include "files/file_rights.h"
#include "files/interrupt.h"
#include "files/left_behind.h"
#include "files/system_calls.h"
#include "files/used_folder.h"

namespace sheaf {

namespace {

constexpr std::string_view kPrefix = ".sheaf-writing-";
constexpr std::size_t kSigns = 6;
constexpr int kMostTries = 100;

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

void remove_if_free(const FilePath& path) {
  const Descriptor file(system_calls::open(
      path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK));
  struct stat about {};
  const bool is_free =
      file && system_calls::fstat(file.number(), &about) == 0 &&
      S_ISREG(about.st_mode) &&
      system_calls::lock(file.number(), LOCK_EX | LOCK_NB) == 0;
  if (is_free) system_calls::unlink(path.c_str());
}

// What a link leads to; anything else is itself.
FilePath behind_links(const FilePath& target) {
  struct stat about {};
  if (system_calls::lstat(target.c_str(), &about) != 0) {
    const std::error_code fault = last_fault();
    check_memory(fault);
    if (!is_nothing_there(fault)) fail_to_write(target, fault.message());
    return target;
  }
  if (!S_ISLNK(about.st_mode)) return target;
  std::error_code fault;
  FilePath real = name_without_links(target, fault);
  if (fault) {
    fail_to_write(target, is_nothing_there(fault)
                              ? "it is a link to something that is not there"
                              : fault.message());
  }
  return real;
}

// Interrupts must be held.
void remove_leftover(Replacement& replacement) {
  if (!replacement.remove_leftover()) {
    note_left_behind(replacement.leftover());
  }
  keep_on_interrupt(replacement.temporary().c_str());
}

// Whether the open file is still the one of that name.
bool is_there(int file, const char* name) {
  struct stat own {
  }, there{};
  if (system_calls::fstat(file, &own) != 0) return false;
  if (system_calls::lstat(name, &there) != 0) return false;
  errno = ENOENT;
  return own.st_dev == there.st_dev && own.st_ino == there.st_ino;
}

// Makes and locks a file beside the target; it is on the list of what an
// interrupt removes. Another run may take a file without a lock for a leftover,
// so the lock counts only if the file is still there.
Descriptor make_temporary(const FilePath& target, Replacement& replacement) {
  const HoldInterrupts hold;
  const std::string form =
      (target.parent_path() / kPrefix).string() + std::string(kSigns, 'X');
  int fault = EINTR;
  for (int tries = 0; tries < kMostTries; ++tries) {
    std::string name = form;
    Descriptor file(system_calls::make_unique(name.data(), O_CLOEXEC));
    if (!file && errno == EINTR) continue;
    if (!file) fail(target);
    try {
      replacement = Replacement(name, target);
      remove_on_interrupt(name);
    } catch (...) {
      system_calls::unlink(name.c_str());
      throw;
    }
    const bool taken =
        system_calls::lock(file.number(), LOCK_EX | LOCK_NB) != 0 &&
        errno == EWOULDBLOCK;
    if (!taken && is_there(file.number(), name.c_str())) return file;
    fault = taken ? EWOULDBLOCK : errno;
    remove_leftover(replacement);
    if (fault != EWOULDBLOCK && fault != ENOENT) break;
  }
  errno = fault;
  fail(target);
}

void write_all(int file, std::string_view bytes, const FilePath& target) {
  while (!bytes.empty()) {
    const ssize_t put = system_calls::write(file, bytes.data(), bytes.size());
    if (put <= 0) fail(target);
    bytes.remove_prefix(static_cast<std::size_t>(put));
  }
}

// Whether what is open will outlast a power cut, or its file system cannot tell
// (the answers are those of drives and servers that know no such call).
bool is_flushed(int file) {
  return system_calls::sync(file) == 0 || errno == EINVAL || errno == ENOSYS ||
         errno == EOPNOTSUPP;
}

// Some file systems say that a disk is full only when a file is closed; the
// file itself stays open for its lock.
bool has_been_taken(int file) {
  const int again = system_calls::duplicate(file);
  return again >= 0 && system_calls::close(again) == 0;
}

}  // namespace

void clear_left_behind(const FilePath& folder) {
  std::error_code fault;
  for (const std::string& name : names_in(folder, fault)) {
    if (is_temporary(name)) remove_if_free(folder / name);
  }
}

DiskOutput::~DiskOutput() {
  const HoldInterrupts hold;
  for (Pending& p : pending_) {
    remove_leftover(p.replacement);
  }
}

void DiskOutput::open_folder(const FilePath& path) {
  Descriptor file;
  // Another run may take the folder away before it is kept as in use.
  for (int tries = 0; !file && tries < kMostTries; ++tries) {
    std::error_code fault;
    make_folders(path, fault);
    if (fault) {
      throw MachineError(fmt::format("cannot make the folder {}: {}",
                                     path.string(), fault.message()));
    }
    file = use_folder(path);
    if (!file && errno != ENOENT) fail(path);
  }
  struct stat about {};
  if (!file || system_calls::fstat(file.number(), &about) != 0) fail(path);
  // A folder may have several names, and is held once.
  const bool known = std::ranges::any_of(folders_, [&](const Folder& folder) {
    return folder.device == about.st_dev && folder.number == about.st_ino;
  });
  if (known) return;
  clear_left_behind(path);
  folders_.push_back({path, about.st_dev, about.st_ino, std::move(file)});
}

// The file that is in the way, open; none where nothing is. Only a file may be
// replaced: not a folder, nor a device (`--deps /dev/null`).
std::unique_ptr<OpenDescriptor> DiskOutput::open_replaced(Pending& pending) {
  const FilePath& target = pending.target;
  struct stat about {};
  pending.replaces = system_calls::lstat(target.c_str(), &about) == 0;
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
  std::error_code fault;
  auto file =
      pending.replaces ? open_for_reading(target, false, fault) : nullptr;
  if (fault) fail_to_write(target, fault.message());
  check_in_the_way(target, pending.allowed, pending.replaces, file.get());
  return file;
}

void DiskOutput::put(Pending pending, std::string_view bytes) {
  pending.target = behind_links(pending.target);
  const FilePath target = pending.target;
  open_folder(folder_of(target));
  const auto replaced = open_replaced(pending);
  pending_.reserve(pending_.size() + 1);
  pending.file = make_temporary(target, pending.replacement);
  const int file = pending.file.number();
  // Waiting for the disk is for what nobody could make again.
  const auto& form = pending.allowed.form;
  const bool must_last = !form || !form->can_be_made_again;
  must_last_ |= must_last;
  pending_.push_back(std::move(pending));
  write_all(file, bytes, target);
  const bool good = replaced ? keep_rights(replaced->number(), file)
                             : give_usual_rights(file);
  if (!good || !(must_last ? is_flushed(file) : has_been_taken(file))) {
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
    // Where the file system has no locks, nobody can be waited for.
    system_calls::lock(folder.file.number(), LOCK_EX);
  }
}

// What was not there a moment ago is never replaced, not even where it came
// since then.
void DiskOutput::put_in_place(Pending& pending) {
  auto old = open_replaced(pending);
  const auto undo = pending_.size() > 1 ? Replacement::Undo::may_be_needed
                                        : Replacement::Undo::never;
  Descriptor replaced = old ? old->take() : Descriptor();
  if (pending.replacement.place(std::move(replaced), undo)) {
    // One file is open for each of a set, however many there are.
    pending.file.close();
    return;
  }
  if (errno != EEXIST || pending.replaces) fail(pending.target);
  throw FileChanged(fmt::format("{} is there already, and is left alone",
                                pending.target.string()));
}

// The first `count` are in their places.
void DiskOutput::put_back(std::size_t count) {
  while (count > 0 && pending_[count - 1].replacement.put_back()) {
    --count;
    --placed_;
  }
  const int fault = errno;
  for (std::size_t i = 0; i < count; ++i) {
    errno = fault;
    note_not_put_back(pending_[i].target.c_str());
  }
}

void DiskOutput::finish() {
  hold_folders();
  const HoldInterrupts hold;
  for (Pending& pending : pending_) open_replaced(pending);
  const std::size_t before = placed_;
  try {
    for (Pending& pending : pending_) {
      put_in_place(pending);
      ++placed_;
    }
  } catch (...) {
    put_back(placed_ - before);
    throw;
  }
  for (Pending& pending : pending_) {
    remove_leftover(pending.replacement);
  }
  pending_.clear();
  // So that the new names too outlast a power cut. What is in its place stays
  // where that fails: a disk that cannot keep a name would not keep its
  // undoing.
  if (must_last_) {
    for (const Folder& folder : folders_) {
      if (!is_flushed(folder.file.number()))
        note_may_be_lost(folder.path.c_str());
    }
  }
  must_last_ = false;
  folders_.clear();
}

}  // namespace sheaf
