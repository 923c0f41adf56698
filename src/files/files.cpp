#include "files/files.h"

#include <algorithm>

namespace sheaf {

std::vector<FilePath> yaml_files(const Files& files, const FilePath& folder) {
  std::vector<FilePath> found = files.list(folder);
  std::erase_if(
      found, [](const FilePath& path) { return path.extension() != ".yaml"; });
  return found;
}

namespace {

// The file in the folder, if it is one and does not lie outside through links.
std::optional<FilePath> inside(const Files& files, const FilePath& folder,
                               const FilePath& name) {
  const FilePath base = folder.empty() ? FilePath(".") : folder;
  const auto real_base = files.real(base);
  if (!real_base) return std::nullopt;
  const auto real = files.real(base / name);
  if (!real || !files.is_file(*real)) return std::nullopt;
  const FilePath relative = real->lexically_relative(*real_base);
  if (relative.empty() || *relative.begin() == "..") return std::nullopt;
  return folder / name;
}

}  // namespace

std::optional<FilePath> find_named_file(
    const Files& files, std::string_view name, const FilePath& folder,
    const FilePath& shipped, const std::vector<std::string>& allowed_folders) {
  // Systems would read such a name up to its zero byte only.
  if (name.find('\0') != std::string_view::npos) return std::nullopt;
  const FilePath path(name);
  if (path.is_absolute()) return std::nullopt;
  for (const FilePath& part : path) {
    if (part == "..") return std::nullopt;
  }
  if (auto found = inside(files, folder, path)) return found;
  // What came with Sheaf may lie behind links; it is ours.
  if (files.is_file(shipped / path)) return shipped / path;
  for (const std::string& allowed : allowed_folders) {
    if (auto found = inside(files, allowed, path)) return found;
  }
  return std::nullopt;
}

}  // namespace sheaf
