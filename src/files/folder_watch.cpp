#include "files/folder_watch.h"

#include <sys/inotify.h>
#include <sys/stat.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <optional>

#include <fmt/format.h>

#include "base/error.h"
#include "files/disk_names.h"
#include "files/system_calls.h"

namespace sheaf {

namespace {

using Clock = std::chrono::steady_clock;

// An editor writes, renames and touches in a row.
constexpr std::chrono::milliseconds kQuiet{80};
// As many as the system follows.
constexpr int kMostLinks = 40;
constexpr std::uint32_t kChanged =
    IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_DELETE | IN_CREATE;

[[noreturn]] void fail_to_watch() {
  throw MachineError(fmt::format("the files can no longer be watched: {}",
                                 std::strerror(errno)));
}

}  // namespace

FolderWatch::FolderWatch() : queue_(system_calls::begin_watching()) {
  if (queue_) return;
  throw MachineError(
      fmt::format("files cannot be watched here: {}", std::strerror(errno)));
}

void FolderWatch::watch(const std::set<std::string>& files) {
  files_.insert(files.begin(), files.end());
  begin_again();
}

void FolderWatch::watch_folder(const std::string& folder) {
  whole_folders_.insert(folder);
  begin_again();
}

// Under the names there may be other folders by now. Those that are watched
// already stay so without a gap.
void FolderWatch::begin_again() {
  const std::map<int, Folder> before = std::move(folders_);
  folders_.clear();
  followed_.clear();
  for (const std::string& file : files_) follow(file, 0);
  for (const std::string& folder : whole_folders_) {
    follow(folder, 0);
    add(folder, {}, true);
  }
  for (const auto& [number, folder] : before) {
    if (!folders_.contains(number)) {
      system_calls::end_watch(queue_.number(), number);
    }
  }
  if (!folders_.empty()) return;
  throw MachineError("none of the files' folders can be watched");
}

// From the beginning of a name to its end, and what links on the way lead to.
void FolderWatch::follow(const FilePath& path, int links) {
  FilePath at = path.is_absolute() ? path.root_path() : FilePath(".");
  for (const FilePath& part : path.relative_path()) {
    if (part.empty() || part == ".") continue;
    const FilePath folder = at;
    at /= part;
    if (part == ".." || !followed_.insert(at).second) continue;
    if (!add(folder, part.string(), false)) return;
    struct stat about {};
    const bool is_link =
        system_calls::lstat(at.c_str(), &about) == 0 && S_ISLNK(about.st_mode);
    if (!is_link || links == kMostLinks) continue;
    std::error_code fault;
    const FilePath target = named_by_link(at, fault);
    if (!fault) follow(folder / target, links + 1);
  }
}

// False where the folder is not there.
bool FolderWatch::add(const FilePath& folder, const std::string& name,
                      bool whole) {
  const int number = system_calls::watch(queue_.number(), folder.c_str(),
                                         kChanged | IN_ONLYDIR);
  if (number < 0) {
    const std::error_code fault = last_fault();
    check_memory(fault);
    if (is_nothing_there(fault)) return false;
    // A folder may be passed through without any right to read it.
    if (fault == std::errc::permission_denied) return true;
    throw MachineError(fmt::format("the folder {} cannot be watched: {}",
                                   folder.string(), fault.message()));
  }
  Folder& watched = folders_[number];
  watched.path = folder;
  if (!name.empty()) watched.names.insert(name);
  watched.whole = watched.whole || whole;
  return true;
}

bool FolderWatch::counts(const Folder& folder, const std::string& name,
                         std::uint32_t what) const {
  const bool is_yaml =
      folder.whole && name.ends_with(".yaml") && !name.starts_with('.');
  if (!is_yaml && !folder.names.contains(name)) return false;
  if ((what & (kChanged & ~std::uint32_t{IN_CREATE})) != 0) return true;
  // A file that was just begun is heard of once more when it is there.
  struct stat about {};
  return system_calls::lstat((folder.path / name).c_str(), &about) != 0 ||
         !S_ISREG(about.st_mode) || about.st_size > 0;
}

// Whether one of the events in the queue is about a file that counts.
bool FolderWatch::read_events() {
  alignas(inotify_event) std::array<char, 16384> buffer;
  bool ours = false;
  for (;;) {
    const ssize_t size =
        system_calls::read(queue_.number(), buffer.data(), buffer.size());
    if (size < 0 && errno != EAGAIN) fail_to_watch();
    if (size <= 0) return ours;
    for (ssize_t at = 0; at < size;) {
      const auto* event =
          reinterpret_cast<const inotify_event*>(buffer.data() + at);
      at += static_cast<ssize_t>(sizeof(inotify_event)) +
            static_cast<ssize_t>(event->len);
      if ((event->mask & (IN_Q_OVERFLOW | IN_UNMOUNT)) != 0) ours = true;
      const auto folder = folders_.find(event->wd);
      if (folder == folders_.end() || event->len == 0) continue;
      ours = ours || counts(folder->second, event->name, event->mask);
    }
  }
}

// What others do in the folders above, which are watched too, does not count as
// unrest.
void FolderWatch::wait() {
  pollfd waiting{queue_.number(), POLLIN, 0};
  std::optional<Clock::time_point> until;
  for (;;) {
    int left = -1;
    if (until) {
      const auto rest =
          std::chrono::ceil<std::chrono::milliseconds>(*until - Clock::now());
      if (rest.count() <= 0) break;
      left = static_cast<int>(rest.count());
    }
    if (system_calls::wait(&waiting, 1, left) < 0) fail_to_watch();
    if (read_events()) until = Clock::now() + kQuiet;
  }
  begin_again();
}

}  // namespace sheaf
