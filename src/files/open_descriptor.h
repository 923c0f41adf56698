#pragma once

#include <system_error>

#include "files/descriptor.h"
#include "files/output_files.h"

namespace sheaf {

/// A file of the system that is open for reading.
class OpenDescriptor final : public OpenFile {
 public:
  OpenDescriptor(FilePath path, Descriptor file, std::uint64_t size)
      : path_(std::move(path)), file_(std::move(file)), size_(size) {}

  /// As it was when the file was opened.
  std::uint64_t size() const override { return size_; }
  std::string read(std::uint64_t begin, std::size_t most) const override;
  int number() const { return file_.number(); }
  /// Hands the file over.
  Descriptor take() { return std::move(file_); }

 private:
  FilePath path_;
  Descriptor file_;
  std::uint64_t size_;
};

/// A regular file, opened without blocking: a named pipe would hold Sheaf up.
/// Null where it cannot be opened, with the fault, and where it is something
/// else than a file, without one. Want of memory throws std::bad_alloc.
std::unique_ptr<OpenDescriptor> open_for_reading(const FilePath& path,
                                                 bool follow_links,
                                                 std::error_code& fault);

}  // namespace sheaf
