#include "cli/new_file.h"

#include <fmt/format.h>

#include <algorithm>

#include "files/disk_files.h"
#include "files/output_files.h"

namespace sheaf {

bool write_new_file(Files& files, const FilePath& target,
                    std::string_view bytes) {
  if (files.own_status(target).kind != Standing::none) return false;
  const auto output = files.write();
  output->add_new(target, bytes);
  try {
    output->finish();
  } catch (const FileChanged&) {
    return false;
  }
  return true;
}

namespace {

std::string schema_for(std::string_view kind, const FilePath& target) {
  const std::string name = fmt::format("schemas/{}.json", kind);
  FilePath folder = disk().absolute(target).lexically_normal();
  folder = folder.parent_path();
  std::string up;
  for (int level = 0; level < 4; ++level) {
    if (disk().is_file(folder / name)) return up + name;
    folder = folder.parent_path();
    up += "../";
  }
  return (shipped_folder() / name).string();
}

}  // namespace

std::string with_modeline(std::string text, std::string_view kind,
                          const FilePath& target) {
  std::size_t at = 0;
  while (at < text.size() && text[at] == '#') {
    at = std::min(text.find('\n', at), text.size() - 1) + 1;
  }
  text.insert(at, fmt::format("# yaml-language-server: $schema={}\n",
                              schema_for(kind, target)));
  return text;
}

}  // namespace sheaf
