#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// The files that a run has read, each with a number made from its bytes, and
/// the places where it looked for one in vain: what pages were made from.
class FilesRead {
 public:
  /// A file's path as it was opened; without a number where none was there.
  struct Entry {
    std::string path;
    std::optional<std::uint64_t> digest;
  };

  void add(const std::string& path, std::string_view bytes);
  void add_known(const std::string& path, std::uint64_t digest);
  /// A file read before is used once more.
  void add_again(const std::string& path) { fresh_.insert(path); }
  void add_missing(const std::string& path);

  /// What was read or missing since the last call, in order of the paths.
  std::vector<Entry> take();
  /// Takes over what others have read.
  void add_all(const FilesRead& others);
  /// The files that were there, since the beginning.
  std::set<std::string> all() const;

 private:
  std::map<std::string, std::optional<std::uint64_t>> known_;
  std::set<std::string> fresh_;
};

}  // namespace sheaf
