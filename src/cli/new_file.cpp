#include "cli/new_file.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "base/error.h"
#include "cli/output_files.h"

namespace sheaf {

namespace fs = std::filesystem;

// A link under the new name is made only if that name is free, and then the
// file is there with all its bytes.
bool write_new_file(const fs::path& target, std::string_view bytes) {
  std::error_code fault;
  if (fs::exists(fs::symlink_status(target, fault))) return false;
  fs::path whole = target;
  whole += fmt::format(".{}.new", ::getpid());
  OutputFiles files;
  files.add(whole, bytes);
  files.finish();
  const bool made = ::link(whole.c_str(), target.c_str()) == 0;
  const int number = errno;
  ::unlink(whole.c_str());
  if (made || number == EEXIST) return made;
  throw MachineError(fmt::format("cannot write {}: {}", target.string(),
                                 std::strerror(number)));
}

}  // namespace sheaf
