#pragma once

#include "files/descriptor.h"
#include "files/output_files.h"

namespace sheaf {

/// A file of the system that is open for reading.
class OpenDescriptor final : public OpenFile {
 public:
  explicit OpenDescriptor(Descriptor file) : file_(std::move(file)) {}

  std::uint64_t size() const override;
  std::string read(std::uint64_t begin, std::size_t most) const override;
  int number() const { return file_.number(); }

 private:
  Descriptor file_;
};

/// A regular file, opened without blocking: a named pipe would hold Sheaf up.
/// Null where there is none or it cannot be opened; errno says why, and is 0
/// where it is something else than a file.
std::unique_ptr<OpenDescriptor> open_for_reading(const FilePath& path,
                                                 bool follow_links);

}  // namespace sheaf
