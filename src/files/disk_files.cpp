#include "files/disk_files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <new>
#include <system_error>

#include "base/error.h"
#include "files/disk_output.h"
#include "files/open_descriptor.h"

namespace sheaf {

namespace fs = std::filesystem;

namespace {

std::string reason() { return std::strerror(errno); }

// So that want of memory is not taken for a file that is not there.
void check_memory(const std::error_code& fault) {
  if (fault == std::errc::not_enough_memory) throw std::bad_alloc();
}

// Whether a call failed since nothing can be under such a name.
bool is_nothing_there(const std::error_code& fault) {
  return fault == std::errc::no_such_file_or_directory ||
         fault == std::errc::not_a_directory ||
         fault == std::errc::too_many_symbolic_link_levels ||
         fault == std::errc::filename_too_long ||
         fault == std::errc::invalid_argument;
}

[[noreturn]] void fail_to_look(const FilePath& path, const std::string& why) {
  throw MachineError(fmt::format("cannot look at {}: {}", path.string(), why));
}

Standing kind_of(const struct stat& about) {
  if (S_ISREG(about.st_mode)) return Standing::file;
  if (S_ISDIR(about.st_mode)) return Standing::folder;
  if (S_ISLNK(about.st_mode)) return Standing::link;
  return Standing::other;
}

FileStatus status_of(const FilePath& path, bool follow_links) {
  struct stat about {};
  const int failed = follow_links ? ::stat(path.c_str(), &about)
                                  : ::lstat(path.c_str(), &about);
  if (failed != 0) {
    const std::error_code fault(errno, std::generic_category());
    check_memory(fault);
    if (is_nothing_there(fault)) return {};
    fail_to_look(path, fault.message());
  }
  return {kind_of(about), about.st_dev, about.st_ino, about.st_nlink};
}

}  // namespace

std::uint64_t OpenDescriptor::size() const {
  struct stat about {};
  const bool known = ::fstat(number(), &about) == 0;
  return known ? static_cast<std::uint64_t>(about.st_size) : 0;
}

std::string OpenDescriptor::read(std::uint64_t begin, std::size_t most) const {
  const std::uint64_t whole = size();
  const std::uint64_t rest = begin < whole ? whole - begin : 0;
  std::string part(std::min<std::uint64_t>(most, rest), '\0');
  std::size_t done = 0;
  while (done < part.size()) {
    const ssize_t got =
        ::pread(number(), part.data() + done, part.size() - done,
                static_cast<off_t>(begin + done));
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) break;
    done += static_cast<std::size_t>(got);
  }
  part.resize(done);
  return part;
}

std::unique_ptr<OpenDescriptor> open_for_reading(const FilePath& path,
                                                 bool follow_links) {
  const int flags = O_RDONLY | O_CLOEXEC | O_NONBLOCK;
  Descriptor file(
      ::open(path.c_str(), follow_links ? flags : flags | O_NOFOLLOW));
  if (!file) return nullptr;
  struct stat about {};
  if (::fstat(file.number(), &about) != 0) return nullptr;
  if (S_ISREG(about.st_mode)) {
    return std::make_unique<OpenDescriptor>(std::move(file));
  }
  errno = 0;
  return nullptr;
}

FileStatus DiskFiles::status(const FilePath& path) const {
  return status_of(path, true);
}

FileStatus DiskFiles::own_status(const FilePath& path) const {
  return status_of(path, false);
}

std::string DiskFiles::read(const FilePath& path, std::size_t limit) const {
  const auto fail = [&](const std::string& why) {
    throw MachineError(fmt::format("cannot read {}: {}", path.string(), why));
  };
  const auto file = open_for_reading(path, true);
  if (!file && errno == ENOMEM) throw std::bad_alloc();
  if (!file) fail(errno == 0 ? "it is not a file" : reason());
  std::string text;
  text.resize(std::min<std::uint64_t>(file->size(), limit + 1));
  std::size_t done = 0;
  while (done < text.size()) {
    const ssize_t got =
        ::read(file->number(), text.data() + done, text.size() - done);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) fail(reason());
    if (got == 0) break;
    done += static_cast<std::size_t>(got);
  }
  text.resize(done);
  return text;
}

std::unique_ptr<OpenFile> DiskFiles::open(const FilePath& path) const {
  return open_for_reading(path, true);
}

KeptBytes DiskFiles::keep(const std::string& name) const {
  const auto fail = [&](const std::string& why) {
    if (errno == ENOMEM) throw std::bad_alloc();
    throw MachineError(fmt::format("cannot read {}: {}", name, why));
  };
  const auto file = open_for_reading(name, true);
  if (!file) fail(errno == 0 ? "it is not a file" : reason());
  const auto size = static_cast<std::size_t>(file->size());
  if (size == 0) return kept({});
  void* data = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE, file->number(), 0);
  if (data == MAP_FAILED) fail(reason());
  return {std::shared_ptr<const void>(data,
                                      [size](const void* all) {
                                        ::munmap(const_cast<void*>(all), size);
                                      }),
          {static_cast<const char*>(data), size}};
}

std::vector<FilePath> DiskFiles::list(const FilePath& folder) const {
  std::vector<FilePath> found;
  std::error_code fault;
  fs::directory_iterator entry(folder.empty() ? FilePath(".") : folder, fault);
  for (const fs::directory_iterator end; !fault && entry != end;
       entry.increment(fault)) {
    found.push_back(folder / entry->path().filename());
  }
  check_memory(fault);
  if (fault && fault != std::errc::no_such_file_or_directory) {
    throw MachineError(fmt::format("cannot read the folder {}: {}",
                                   folder.string(), fault.message()));
  }
  std::ranges::sort(found);
  return found;
}

std::optional<FilePath> DiskFiles::real(const FilePath& path) const {
  std::error_code fault;
  FilePath real = fs::canonical(path, fault);
  check_memory(fault);
  if (!fault) return real;
  if (is_nothing_there(fault)) return std::nullopt;
  fail_to_look(path, fault.message());
}

FilePath DiskFiles::absolute(const FilePath& path) const {
  std::error_code fault;
  FilePath whole = fs::absolute(path, fault);
  check_memory(fault);
  if (fault) fail_to_look(path, fault.message());
  return whole;
}

std::unique_ptr<OutputFiles> DiskFiles::write() {
  return std::make_unique<DiskOutput>();
}

bool DiskFiles::remove_file(const FilePath& path) {
  if (::unlink(path.c_str()) == 0) return true;
  if (errno == ENOENT) return false;
  throw MachineError(
      fmt::format("cannot delete {}: {}", path.string(), reason()));
}

bool DiskFiles::remove_folder(const FilePath& path) {
  return ::rmdir(path.c_str()) == 0;
}

Files& disk() {
  static DiskFiles files;
  return files;
}

FilePath DiskFiles::program() const { return "/proc/self/exe"; }

FilePath shipped_folder() {
  std::error_code fault;
  const FilePath program = fs::read_symlink(disk().program(), fault);
  check_memory(fault);
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
