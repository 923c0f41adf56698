#pragma once

#include <string>

#include "files/disk_files.h"
#include "files/memory_files.h"

namespace sheaf {

/// What comes with Sheaf and a build reads, in memory under `shipped`.
class ShippedInMemory {
 public:
  ShippedInMemory() {
    for (const char* name : {"phonics.bin", "fonts/manifest.tsv"}) take(name);
    for (const char* folder : {"fonts", "layouts"}) {
      for (const FilePath& path : disk().list(FilePath(kShipped) / folder)) {
        if (disk().is_file(path)) take(folder / path.filename());
      }
    }
  }

  MemoryFiles files;

 private:
  static constexpr const char* kShipped = SHEAF_SHIPPED;

  void take(const FilePath& name) {
    files.put("shipped" / name,
              disk().read(FilePath(kShipped) / name, std::size_t{64} << 20U));
  }
};

}  // namespace sheaf
