#pragma once

#include <map>
#include <memory>

#include "files/files.h"

namespace sheaf {

/// Files that are texts in memory, alone or over others: an open text in an
/// editor hides what the disk has under that name. What is written or taken
/// away stays in memory; the files below are never changed. Folders are there
/// as far as something is in them. Alone, names that do not begin at the top
/// folder are meant from there.
class MemoryFiles final : public Files {
 public:
  explicit MemoryFiles(const Files* below = nullptr) : below_(below) {}

  /// Puts a file there, or another in its place.
  void put(const FilePath& path, std::string bytes);
  /// A file that was put there goes, and what is below can be seen again.
  void forget(const FilePath& path);
  /// Bytes that do not change: what is put under the same name is others.
  using Bytes = std::shared_ptr<const std::string>;
  /// All that is in memory, by names from the top folder on. None is null.
  std::map<std::string, Bytes> all() const;

  FileStatus status(const FilePath& path) const override;
  FileStatus own_status(const FilePath& path) const override;
  std::string read(const FilePath& path, std::size_t limit) const override;
  std::unique_ptr<OpenFile> open(const FilePath& path) const override;
  KeptBytes keep(const std::string& name) const override;
  std::vector<FilePath> list(const FilePath& folder) const override;
  std::optional<FilePath> real(const FilePath& path) const override;
  FilePath absolute(const FilePath& path) const override;
  FilePath program() const override;

  std::unique_ptr<OutputFiles> write() override;
  bool remove_file(const FilePath& path) override;
  bool remove_folder(const FilePath& path) override;

 private:
  // The name under which a file is, or would be, in memory.
  FilePath key(const FilePath& path) const;
  // What is known of a name here; null where nothing is.
  const Bytes* find(const FilePath& path) const;
  bool has_folder(const FilePath& key) const;

  const Files* below_;
  // Null for a file below that was taken away.
  std::map<FilePath, Bytes> files_;
};

}  // namespace sheaf
