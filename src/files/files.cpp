#include "files/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <iostream>
#include <new>

#include "base/error.h"
#include "files/descriptor.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

std::string reason() { return std::strerror(errno); }

}  // namespace

std::string read_file(const fs::path& path, std::size_t limit) {
  const auto fail = [&](const std::string& why) {
    throw MachineError(fmt::format("cannot read {}: {}", path.string(), why));
  };
  // Opening without blocking keeps a named pipe from holding Sheaf up.
  const Descriptor file(
      ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (!file) fail(reason());
  struct stat about {};
  if (::fstat(file.number(), &about) != 0) fail(reason());
  if (!S_ISREG(about.st_mode)) fail("it is not a file");
  std::string text;
  const auto size = static_cast<std::size_t>(about.st_size);
  text.resize(std::min(size, limit + 1));
  std::size_t done = 0;
  while (done < text.size()) {
    const ssize_t got =
        ::read(file.number(), text.data() + done, text.size() - done);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) fail(reason());
    if (got == 0) break;
    done += static_cast<std::size_t>(got);
  }
  text.resize(done);
  return text;
}

void check_memory(const std::error_code& fault) {
  if (fault == std::errc::not_enough_memory) throw std::bad_alloc();
}

std::vector<fs::path> yaml_files(const fs::path& folder) {
  std::vector<fs::path> files;
  std::error_code fault;
  fs::directory_iterator entry(folder, fault), end;
  for (; !fault && entry != end; entry.increment(fault)) {
    if (entry->path().extension() == ".yaml") files.push_back(entry->path());
  }
  check_memory(fault);
  if (fault && fault != std::errc::no_such_file_or_directory) {
    throw MachineError(fmt::format("cannot read the folder {}: {}",
                                   folder.string(), fault.message()));
  }
  std::ranges::sort(files);
  return files;
}

std::string read_standard_input(std::size_t limit) {
  std::string text;
  for (char c = 0; text.size() <= limit && std::cin.get(c);) text += c;
  return text;
}

fs::path shipped_folder() {
  std::error_code fault;
  const fs::path program = fs::read_symlink("/proc/self/exe", fault);
  check_memory(fault);
  const fs::path folder = program.parent_path();
  for (const fs::path& candidate :
       {folder / "share/sheaf", folder.parent_path() / "share/sheaf"}) {
    if (fs::is_directory(candidate, fault)) return candidate;
  }
  throw MachineError(
      "Sheaf's own files (share/sheaf) are not beside the program; build or "
      "install it again");
}

namespace {

// The file in the folder, if it is one and does not lie outside through links.
std::optional<fs::path> inside(const fs::path& folder, const fs::path& name) {
  std::error_code fault;
  const fs::path base = folder.empty() ? fs::path(".") : folder;
  const fs::path real_base = fs::canonical(base, fault);
  check_memory(fault);
  if (fault) return std::nullopt;
  const fs::path real = fs::canonical(base / name, fault);
  check_memory(fault);
  if (fault || !fs::is_regular_file(real, fault)) return std::nullopt;
  const fs::path relative = real.lexically_relative(real_base);
  if (relative.empty() || *relative.begin() == "..") return std::nullopt;
  return folder / name;
}

}  // namespace

std::optional<fs::path> find_named_file(
    std::string_view name, const fs::path& folder, const fs::path& shipped,
    const std::vector<std::string>& allowed_folders) {
  const fs::path path(name);
  if (path.is_absolute()) return std::nullopt;
  for (const fs::path& part : path) {
    if (part == "..") return std::nullopt;
  }
  if (auto found = inside(folder, path)) return found;
  // What came with Sheaf may lie behind links; it is ours.
  std::error_code fault;
  if (fs::is_regular_file(shipped / path, fault)) return shipped / path;
  for (const std::string& allowed : allowed_folders) {
    if (auto found = inside(allowed, path)) return found;
  }
  return std::nullopt;
}

}  // namespace sheaf
