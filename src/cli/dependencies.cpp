#include "cli/dependencies.h"

#include <filesystem>

#include "cli/output_files.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view kWayOut = "name another file after `--deps`";

// Spaces and signs that make would read as something else.
std::string for_make(const std::string& path) {
  std::string result;
  for (const char c : path) {
    if (c == ' ' || c == '#' || c == '\\') result += '\\';
    if (c == '$') result += '$';
    result += c;
  }
  return result;
}

// As seen from the folder that make runs in, where it is below that.
std::string from_here(const std::string& path) {
  const fs::path near = fs::path(path).lexically_proximate(fs::current_path());
  const bool below = fs::path(path).is_absolute() && *near.begin() != "..";
  return below ? near.string() : path;
}

std::string dependencies(const std::vector<std::string>& targets,
                         const std::vector<std::string>& sources) {
  std::string text;
  for (const std::string& target : targets) text += for_make(target) + " ";
  text += ":";
  for (const std::string& source : sources) text += " " + for_make(source);
  text += "\n";
  // An empty rule for each, so that a file that was removed stops nothing.
  for (const std::string& source : sources) text += for_make(source) + ":\n";
  return text;
}

}  // namespace

void check_dependency_file(const CommandLine& line) {
  if (line.dependency_file.empty()) return;
  OutputFiles::check(line.dependency_file, OwnKind::dependencies, kWayOut);
}

void write_dependencies(Workspace& workspace, const CommandLine& line,
                        const std::vector<std::string>& targets) {
  if (line.dependency_file.empty()) return;
  std::vector<std::string> sources;
  for (const std::string& file : workspace.shared_files()) {
    sources.push_back(from_here(file));
  }
  for (const std::string& file : workspace.take_files_read()) {
    sources.push_back(from_here(file));
  }
  OutputFiles files;
  files.add(line.dependency_file, dependencies(targets, sources),
            OwnKind::dependencies, kWayOut);
  files.finish();
}

}  // namespace sheaf
