#include "files/folder_watch.h"

#include <poll.h>
#include <sys/inotify.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>

#include <fmt/format.h>

#include "base/error.h"
#include "files/path.h"

namespace sheaf {

namespace {

// An editor writes, renames and touches in a row.
constexpr int kQuietMilliseconds = 80;
constexpr std::uint32_t kSaved =
    IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_DELETE;

}  // namespace

FolderWatch::FolderWatch() : queue_(::inotify_init1(IN_CLOEXEC | IN_NONBLOCK)) {
  if (queue_ >= 0) return;
  throw MachineError(
      fmt::format("files cannot be watched here: {}", std::strerror(errno)));
}

FolderWatch::~FolderWatch() { ::close(queue_); }

void FolderWatch::watch(const std::set<std::string>& files) {
  for (const std::string& file : files) {
    FilePath folder = FilePath(file).parent_path();
    if (folder.empty()) folder = ".";
    auto known = folders_.find(folder.string());
    if (known == folders_.end()) {
      const int number =
          ::inotify_add_watch(queue_, folder.c_str(), kSaved | IN_ONLYDIR);
      if (number < 0) continue;
      known = folders_.emplace(folder.string(), number).first;
    }
    names_[known->second].insert(FilePath(file).filename().string());
  }
  if (!names_.empty()) return;
  throw MachineError("none of the files' folders can be watched");
}

void FolderWatch::watch_folder(const std::string& folder) {
  const int number =
      ::inotify_add_watch(queue_, folder.c_str(), kSaved | IN_ONLYDIR);
  if (number < 0) {
    throw MachineError(fmt::format("the folder {} cannot be watched: {}",
                                   folder, std::strerror(errno)));
  }
  names_[number];
  whole_.insert(number);
}

// Whether one of the events in the queue is about a file that counts.
bool FolderWatch::read_events() {
  alignas(inotify_event) std::array<char, 16384> buffer;
  bool ours = false;
  for (;;) {
    const ssize_t size = ::read(queue_, buffer.data(), buffer.size());
    if (size <= 0) return ours;
    for (ssize_t at = 0; at < size;) {
      const auto* event =
          reinterpret_cast<const inotify_event*>(buffer.data() + at);
      at += static_cast<ssize_t>(sizeof(inotify_event)) +
            static_cast<ssize_t>(event->len);
      if ((event->mask & IN_Q_OVERFLOW) != 0) ours = true;
      const auto names = names_.find(event->wd);
      if (names == names_.end() || event->len == 0) continue;
      const std::string_view name = event->name;
      const bool counts = whole_.contains(event->wd) &&
                          name.ends_with(".yaml") && !name.starts_with('.');
      ours = ours || counts || names->second.contains(event->name);
    }
  }
}

void FolderWatch::wait() {
  pollfd waiting{queue_, POLLIN, 0};
  for (bool ours = false;;) {
    const int ready = ::poll(&waiting, 1, ours ? kQuietMilliseconds : -1);
    if (ready < 0 && errno != EINTR) {
      throw MachineError(fmt::format("the files can no longer be watched: {}",
                                     std::strerror(errno)));
    }
    if (ready == 0) return;
    ours = read_events() || ours;
  }
}

}  // namespace sheaf
