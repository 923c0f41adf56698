#pragma once

#include <map>
#include <set>
#include <string>

namespace sheaf {

/// Waits until one of some files is saved. Folders are watched and not the
/// files, as editors put a new file in the place of the old one.
class FolderWatch {
 public:
  /// Throws MachineError where the system lets no folder be watched.
  FolderWatch();
  ~FolderWatch();
  FolderWatch(const FolderWatch&) = delete;
  FolderWatch& operator=(const FolderWatch&) = delete;

  /// The files from now on; folders that are not there are left out.
  void watch(const std::set<std::string>& files);
  /// Every lesson, class or other YAML file in a folder, also one that comes
  /// later. Throws MachineError where the folder cannot be watched.
  void watch_folder(const std::string& folder);
  /// Comes back when one of the files was written, put there or taken away,
  /// and nothing more has happened for a moment.
  void wait();

 private:
  bool read_events();

  int queue_ = -1;
  std::map<std::string, int> folders_;
  /// Names in each folder, by its number.
  std::map<int, std::set<std::string>> names_;
  /// Folders of which every YAML file counts.
  std::set<int> whole_;
};

}  // namespace sheaf
