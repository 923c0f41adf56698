#include "driver/find_layout.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest.h"
#include "files/files.h"

namespace sheaf {

namespace {

std::vector<std::string> layout_names(const Files& files,
                                      const FilePath& folder) {
  std::vector<std::string> names;
  for (const FilePath& file : yaml_files(files, folder)) {
    names.push_back(file.stem().string());
  }
  return names;
}

}  // namespace

std::optional<FilePath> find_layout(
    Workspace& workspace, const std::vector<std::string>& allowed_folders,
    const PlacedWord& name, const FilePath& folder, Diagnostics& diagnostics) {
  const std::string file = name.value.ends_with(".yaml")
                               ? name.value
                               : "layouts/" + name.value + ".yaml";
  if (auto found = workspace.find_file(file, folder, allowed_folders)) {
    return found;
  }
  const auto known =
      layout_names(workspace.files(), workspace.shipped() / "layouts");
  const std::vector<std::string_view> views(known.begin(), known.end());
  Help help = did_you_mean(name.value, views);
  if (help.empty()) help = "`sheaf layouts` lists them";
  diagnostics.error(
      diagnostic::unknown_layout, name.span,
      fmt::format("there is no layout {} here", as_written(name.value)), help);
  return std::nullopt;
}

}  // namespace sheaf
