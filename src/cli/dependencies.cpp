#include "cli/dependencies.h"

#include <fmt/format.h>

#include "base/error.h"
#include "driver/own_files.h"
#include "files/disk_files.h"

namespace sheaf {

namespace {

constexpr std::string_view kWayOut = "name another file after `--deps`";

// Found out with GNU make 4.3, which has no way to write these in a rule: line
// breaks and other control characters, a semicolon, an equals sign, a
// backslash, a blank or an ampersand at the end, a member of an archive.
bool make_can_take(std::string_view path) {
  for (const char c : path) {
    const bool control = (c >= 0 && c < ' ') || c == '\x7F';
    if (control || c == ';' || c == '=' || c == '\\') return false;
  }
  const bool archive =
      path.ends_with(')') && path.find('(') != std::string_view::npos;
  return !path.empty() && !path.ends_with(' ') && !path.ends_with('&') &&
         !archive;
}

enum class Side { target, source };

// A path as make reads it. A percent sign stands for any text in a target only,
// a bar parts the sources only, and a tilde is a home at the beginning only.
std::string for_make(const std::string& path, Side side) {
  if (!make_can_take(path)) {
    throw MachineError(fmt::format(
        "--deps cannot name {} to make; rename it, or build without --deps",
        path));
  }
  std::string result = path.starts_with('~') ? "./" : "";
  for (const char c : path) {
    const bool marked =
        std::string_view(" #:*?[").find(c) != std::string_view::npos ||
        c == (side == Side::target ? '%' : '|');
    if (marked) result += '\\';
    if (c == '$') result += '$';
    result += c;
  }
  return result;
}

// As seen from the folder that make runs in, where it is below that.
std::string from_here(const std::string& path) {
  const FilePath near = FilePath(path).lexically_proximate(
      disk().absolute(".").lexically_normal());
  const bool below = FilePath(path).is_absolute() && *near.begin() != "..";
  return below ? near.string() : path;
}

std::string dependencies(const std::vector<std::string>& targets,
                         const std::vector<std::string>& sources) {
  std::string text;
  for (const std::string& target : targets) {
    text += for_make(target, Side::target) + " ";
  }
  text += ":";
  for (const std::string& source : sources) {
    text += " " + for_make(source, Side::source);
  }
  text += "\n";
  // An empty rule for each, so that a file that was removed stops nothing.
  for (const std::string& source : sources) {
    text += for_make(source, Side::target) + ":\n";
  }
  return text;
}

}  // namespace

void check_dependency_file(const CommandLine& line) {
  if (line.dependency_file.empty()) return;
  disk().write()->check(line.dependency_file, own_form(OwnKind::dependencies),
                        kWayOut);
}

void add_dependencies(OutputFiles& files, Workspace& workspace,
                      const CommandLine& line,
                      const std::vector<std::string>& targets) {
  if (line.dependency_file.empty()) return;
  std::vector<std::string> sources;
  for (const std::string& file : workspace.shared_files()) {
    sources.push_back(from_here(file));
  }
  for (const std::string& file : workspace.files_read().all()) {
    sources.push_back(from_here(file));
  }
  files.add(line.dependency_file, dependencies(targets, sources),
            own_form(OwnKind::dependencies), kWayOut);
}

}  // namespace sheaf
