#include "files/disk_files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/mman.h>
#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <new>
#include <system_error>

#include "base/error.h"
#include "files/disk_names.h"
#include "files/disk_output.h"
#include "files/open_descriptor.h"
#include "files/system_calls.h"

namespace sheaf {

namespace {

std::string reason() { return std::strerror(errno); }

[[noreturn]] void fail_to_look(const FilePath& path, const std::string& why) {
  throw MachineError(fmt::format("cannot look at {}: {}", path.string(), why));
}

[[noreturn]] void fail_to_read(const FilePath& path, const std::string& why) {
  throw MachineError(fmt::format("cannot read {}: {}", path.string(), why));
}

[[noreturn]] void fail_to_read(const FilePath& path,
                               const std::error_code& fault) {
  check_memory(fault);
  fail_to_read(path, fault.message());
}

std::unique_ptr<OpenDescriptor> open_file(const FilePath& path) {
  std::error_code fault;
  auto file = open_for_reading(path, true, fault);
  if (fault) fail_to_read(path, fault);
  if (!file) fail_to_read(path, "it is not a file");
  return file;
}

Standing kind_of(const struct stat& about) {
  if (S_ISREG(about.st_mode)) return Standing::file;
  if (S_ISDIR(about.st_mode)) return Standing::folder;
  if (S_ISLNK(about.st_mode)) return Standing::link;
  return Standing::other;
}

FileStatus status_of(const FilePath& path, bool follow_links) {
  struct stat about {};
  const int failed = follow_links ? system_calls::stat(path.c_str(), &about)
                                  : system_calls::lstat(path.c_str(), &about);
  if (failed != 0) {
    const std::error_code fault = last_fault();
    check_memory(fault);
    if (is_nothing_there(fault)) return {};
    fail_to_look(path, fault.message());
  }
  return {kind_of(about), about.st_dev, about.st_ino, about.st_nlink};
}

}  // namespace

std::string OpenDescriptor::read(std::uint64_t begin, std::size_t most) const {
  const std::uint64_t rest = begin < size_ ? size_ - begin : 0;
  std::string part(std::min<std::uint64_t>(most, rest), '\0');
  std::size_t done = 0;
  while (done < part.size()) {
    const ssize_t got =
        system_calls::read_at(number(), part.data() + done, part.size() - done,
                              static_cast<off_t>(begin + done));
    if (got < 0) fail_to_read(path_, last_fault());
    if (got == 0) break;
    done += static_cast<std::size_t>(got);
  }
  part.resize(done);
  return part;
}

std::unique_ptr<OpenDescriptor> open_for_reading(const FilePath& path,
                                                 bool follow_links,
                                                 std::error_code& fault) {
  fault.clear();
  const int flags = O_RDONLY | O_CLOEXEC | O_NONBLOCK;
  Descriptor file(system_calls::open(
      path.c_str(), follow_links ? flags : flags | O_NOFOLLOW));
  struct stat about {};
  if (!file || system_calls::fstat(file.number(), &about) != 0) {
    fault = last_fault();
    check_memory(fault);
    return nullptr;
  }
  if (!S_ISREG(about.st_mode)) return nullptr;
  return std::make_unique<OpenDescriptor>(
      path, std::move(file), static_cast<std::uint64_t>(about.st_size));
}

FileStatus DiskFiles::status(const FilePath& path) const {
  return status_of(path, true);
}

FileStatus DiskFiles::own_status(const FilePath& path) const {
  return status_of(path, false);
}

std::string DiskFiles::read(const FilePath& path, std::size_t limit) const {
  return open_file(path)->read(0, limit + 1);
}

// A file without any right to read it is as good as none; what fails otherwise
// may be anything.
std::unique_ptr<OpenFile> DiskFiles::open(const FilePath& path) const {
  std::error_code fault;
  auto file = open_for_reading(path, true, fault);
  if (fault && fault != std::errc::permission_denied &&
      !is_nothing_there(fault)) {
    fail_to_read(path, fault);
  }
  return file;
}

KeptBytes DiskFiles::keep(const std::string& name) const {
  const auto file = open_file(name);
  const auto size = static_cast<std::size_t>(file->size());
  if (size == 0) return kept({});
  void* data = system_calls::map(size, file->number());
  if (data == MAP_FAILED) fail_to_read(name, last_fault());
  const auto unmap = [size](const void* all) {
    ::munmap(const_cast<void*>(all), size);
  };
  return {std::shared_ptr<const void>(data, unmap),
          {static_cast<const char*>(data), size}};
}

std::vector<FilePath> DiskFiles::list(const FilePath& folder) const {
  std::vector<FilePath> found;
  std::error_code fault;
  for (const std::string& name : names_in(folder, fault)) {
    found.push_back(folder / name);
  }
  if (fault && fault != std::errc::no_such_file_or_directory) {
    throw MachineError(fmt::format("cannot read the folder {}: {}",
                                   folder.string(), fault.message()));
  }
  std::ranges::sort(found);
  return found;
}

std::optional<FilePath> DiskFiles::real(const FilePath& path) const {
  std::error_code fault;
  FilePath real = name_without_links(path, fault);
  if (!fault) return real;
  if (is_nothing_there(fault)) return std::nullopt;
  fail_to_look(path, fault.message());
}

FilePath DiskFiles::absolute(const FilePath& path) const {
  std::error_code fault;
  FilePath whole = whole_name(path, fault);
  if (fault) fail_to_look(path, fault.message());
  return whole;
}

std::unique_ptr<OutputFiles> DiskFiles::write() {
  return std::make_unique<DiskOutput>();
}

bool DiskFiles::remove_file(const FilePath& path) {
  if (system_calls::unlink(path.c_str()) == 0) return true;
  if (errno == ENOENT) return false;
  throw MachineError(
      fmt::format("cannot delete {}: {}", path.string(), reason()));
}

bool DiskFiles::remove_folder(const FilePath& path) {
  if (system_calls::rmdir(path.c_str()) == 0) return true;
  if (errno == ENOENT || errno == ENOTEMPTY || errno == EEXIST) return false;
  throw MachineError(
      fmt::format("cannot delete the folder {}: {}", path.string(), reason()));
}

Files& disk() {
  static DiskFiles files;
  return files;
}

FilePath DiskFiles::program() const { return "/proc/self/exe"; }

FilePath shipped_folder() {
  std::error_code fault;
  const FilePath program = named_by_link(disk().program(), fault);
  if (fault) fail_to_look(disk().program(), fault.message());
  const FilePath folder = program.parent_path();
  for (const FilePath& candidate :
       {folder / "share/sheaf", folder.parent_path() / "share/sheaf"}) {
    if (disk().is_folder(candidate)) return candidate;
  }
  throw MachineError(
      "Sheaf's own files (share/sheaf) are not beside the program; build or "
      "install it again");
}

}  // namespace sheaf
