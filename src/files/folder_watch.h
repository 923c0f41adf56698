#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <string>

#include "files/descriptor.h"
#include "files/path.h"

namespace sheaf {

/// Waits until one of some files is saved. Folders are watched and not the
/// files, as editors put a new file in the place of the old one; and so are the
/// folders above them and those that links lead to, since a whole folder may be
/// put in the place of another, or a link lead elsewhere.
class FolderWatch {
 public:
  /// Throws MachineError where the system lets no folder be watched.
  FolderWatch();

  /// The files from now on, besides those that were named before; where one is
  /// not there, or its folder is not, it is waited for. Throws MachineError
  /// where none can be watched, or the machine fails.
  void watch(const std::set<std::string>& files);
  /// Every lesson, class or other YAML file in a folder, also one that comes
  /// later. Throws as `watch` does.
  void watch_folder(const std::string& folder);
  /// Comes back when one of the files was written, put there or taken away,
  /// and nothing more has happened to them for a moment. Throws MachineError
  /// where the machine fails.
  void wait();

 private:
  struct Folder {
    FilePath path;
    std::set<std::string> names;
    bool whole = false;  ///< every YAML file counts
  };

  void begin_again();
  void follow(const FilePath& path, int links);
  bool add(const FilePath& folder, const std::string& name, bool whole);
  bool counts(const Folder& folder, const std::string& name,
              std::uint32_t what) const;
  bool read_events();

  Descriptor queue_;
  std::set<std::string> files_, whole_folders_;
  std::map<int, Folder> folders_;  ///< by the system's numbers
  std::set<FilePath> followed_;
};

}  // namespace sheaf
