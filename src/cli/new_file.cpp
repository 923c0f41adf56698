#include "cli/new_file.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/output_files.h"
#include "files/files.h"

namespace sheaf {

namespace fs = std::filesystem;

bool write_new_file(const fs::path& target, std::string_view bytes) {
  std::error_code fault;
  if (fs::exists(fs::symlink_status(target, fault))) return false;
  OutputFiles files;
  files.add_new(target, bytes);
  try {
    files.finish();
  } catch (const FileChanged&) {
    return false;
  }
  return true;
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
