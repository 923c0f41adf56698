#pragma once

#include <string>
#include <string_view>

#include "driver/workspace.h"
#include "unit/driver_memory.h"

namespace sheaf::fuzz {

/// What comes with Sheaf, in memory, with the costly parts read: nothing a
/// target does touches the disk. Lives as long as the program.
struct Ground {
  ShippedInMemory shipped;
  Workspace workspace{shipped.files, "shipped"};

  Ground() {
    workspace.phonics();
    workspace.fonts().pictures();
    workspace.pictures();
  }
  /// A file of the project's, for what a text may name.
  void put(const FilePath& name, std::string_view project_file) {
    shipped.files.put(name, disk().read(FilePath(SHEAF_PROJECT) / project_file,
                                        std::size_t{1} << 20U));
  }
};

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

}  // namespace sheaf::fuzz
