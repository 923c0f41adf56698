#include "cli/new_file.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

#include "base/error.h"
#include "cli/files.h"
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

namespace {

std::string schema_for(std::string_view kind, const fs::path& target) {
  const std::string name = fmt::format("schemas/{}.json", kind);
  std::error_code fault;
  fs::path folder = fs::absolute(target, fault).lexically_normal();
  folder = folder.parent_path();
  std::string up;
  for (int level = 0; level < 4; ++level) {
    if (fs::is_regular_file(folder / name, fault)) return up + name;
    folder = folder.parent_path();
    up += "../";
  }
  return (shipped_folder() / name).string();
}

}  // namespace

std::string with_modeline(std::string text, std::string_view kind,
                          const fs::path& target) {
  std::size_t at = 0;
  while (at < text.size() && text[at] == '#') {
    at = std::min(text.find('\n', at), text.size() - 1) + 1;
  }
  text.insert(at, fmt::format("# yaml-language-server: $schema={}\n",
                              schema_for(kind, target)));
  return text;
}

}  // namespace sheaf
