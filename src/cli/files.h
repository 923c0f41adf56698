#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// Reads a whole regular file of at most `limit` bytes. Throws MachineError
/// where there is none, it is something else (a folder, a device) or it cannot
/// be read. A longer file is read up to one byte over the limit, so that the
/// reader can say so with a place.
std::string read_file(const std::filesystem::path& path, std::size_t limit);

/// Files that appear all together or not at all: each is written beside its
/// target, flushed to the disk, and renamed when all are there. What was
/// written and not renamed is removed.
class OutputFiles {
 public:
  OutputFiles() = default;
  ~OutputFiles();
  OutputFiles(const OutputFiles&) = delete;
  OutputFiles& operator=(const OutputFiles&) = delete;

  /// Makes the folder if needed. Throws MachineError where it cannot write.
  void add(const std::filesystem::path& target, std::string_view bytes);
  /// Puts everything in its place.
  void finish();

 private:
  struct Pending {
    std::filesystem::path temporary, target;
  };
  std::vector<Pending> pending_;
};

/// Where the things that come with Sheaf are: the folder `share/sheaf` beside
/// the program or beside its `bin`. Throws MachineError if there is none.
std::filesystem::path shipped_folder();

/// Looks for a file that another file names: in `folder`, then in `shipped`,
/// then in the allowed folders. A name that is absolute or climbs out of those
/// folders, by itself or through a link, is not found.
std::optional<std::filesystem::path> find_named_file(
    std::string_view name, const std::filesystem::path& folder,
    const std::filesystem::path& shipped,
    const std::vector<std::string>& allowed_folders);

}  // namespace sheaf
