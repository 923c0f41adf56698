#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace sheaf::test {

/// The top folder of the project, set by the build.
inline std::filesystem::path project() { return SHEAF_PROJECT; }

inline std::string read(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

/// Files below a folder with one of some endings, in order of their names.
inline std::vector<std::filesystem::path> files_below(
    const std::filesystem::path& folder,
    const std::vector<std::string>& endings) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator(folder)) {
    for (const std::string& ending : endings) {
      if (entry.path().extension() == ending) files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace sheaf::test
