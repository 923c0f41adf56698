#pragma once

#include "files/files.h"

namespace sheaf {

/// The files of the machine. It knows nothing between two calls.
class DiskFiles final : public Files {
 public:
  FileStatus status(const FilePath& path) const override;
  FileStatus own_status(const FilePath& path) const override;
  std::string read(const FilePath& path, std::size_t limit) const override;
  std::unique_ptr<OpenFile> open(const FilePath& path) const override;
  /// The file is mapped into memory.
  KeptBytes keep(const std::string& name) const override;
  std::vector<FilePath> list(const FilePath& folder) const override;
  std::optional<FilePath> real(const FilePath& path) const override;
  FilePath absolute(const FilePath& path) const override;
  FilePath program() const override;

  /// See `DiskOutput` for what it guarantees.
  std::unique_ptr<OutputFiles> write() override;
  bool remove_file(const FilePath& path) override;
  bool remove_folder(const FilePath& path) override;
};

/// The one that the command line gives to everything below it; in a browser it
/// is memory (see web/wasm/machine.cpp).
Files& disk();

/// Where the things that come with Sheaf are: the folder `share/sheaf` beside
/// the program or beside its `bin`. Throws MachineError if there is none.
FilePath shipped_folder();

}  // namespace sheaf
