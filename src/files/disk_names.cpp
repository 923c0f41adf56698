#include "files/disk_names.h"

#include <fcntl.h>
#include <sys/stat.h>

#include <array>
#include <cerrno>
#include <climits>
#include <cstdlib>
#include <memory>
#include <new>

#include "files/descriptor.h"
#include "files/system_calls.h"

namespace sheaf {

void check_memory(const std::error_code& fault) {
  if (fault == std::errc::not_enough_memory) throw std::bad_alloc();
}

bool is_nothing_there(const std::error_code& fault) {
  return fault == std::errc::no_such_file_or_directory ||
         fault == std::errc::not_a_directory ||
         fault == std::errc::too_many_symbolic_link_levels ||
         fault == std::errc::filename_too_long ||
         fault == std::errc::invalid_argument;
}

std::error_code last_fault() { return {errno, std::generic_category()}; }

std::vector<std::string> names_in(const FilePath& folder,
                                  std::error_code& fault) {
  fault.clear();
  std::vector<std::string> names;
  Descriptor file(system_calls::open(folder.empty() ? "." : folder.c_str(),
                                     O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  DIR* opened = file ? system_calls::list(file.number()) : nullptr;
  if (opened == nullptr) {
    fault = last_fault();
    check_memory(fault);
    return names;
  }
  file.release();  // the list closes it
  const std::unique_ptr<DIR, int (*)(DIR*)> list(opened,
                                                 system_calls::end_list);
  while (const dirent* entry = system_calls::next(list.get())) {
    const std::string_view name = entry->d_name;
    if (name != "." && name != "..") names.emplace_back(name);
  }
  if (errno != 0) fault = last_fault();
  check_memory(fault);
  return names;
}

FilePath name_without_links(const FilePath& path, std::error_code& fault) {
  fault.clear();
  const std::unique_ptr<char, void (*)(void*)> name(
      system_calls::real_path(path.c_str()), std::free);
  if (name != nullptr) return name.get();
  fault = last_fault();
  check_memory(fault);
  return {};
}

FilePath whole_name(const FilePath& path, std::error_code& fault) {
  fault.clear();
  if (path.is_absolute()) return path;
  std::array<char, PATH_MAX> here{};
  if (system_calls::this_folder(here.data(), here.size()) == nullptr) {
    fault = last_fault();
    check_memory(fault);
    return {};
  }
  return FilePath(here.data()) / path;
}

FilePath named_by_link(const FilePath& link, std::error_code& fault) {
  fault.clear();
  std::array<char, PATH_MAX> name{};
  const ssize_t size =
      system_calls::read_link(link.c_str(), name.data(), name.size());
  if (size >= 0) {
    return std::string(name.data(), static_cast<std::size_t>(size));
  }
  fault = last_fault();
  check_memory(fault);
  return {};
}

void make_folders(const FilePath& path, std::error_code& fault) {
  fault.clear();
  struct stat about {};
  const auto look = [&] {
    if (system_calls::stat(path.c_str(), &about) != 0) {
      fault = last_fault();
    } else if (S_ISDIR(about.st_mode)) {
      fault.clear();
    } else {
      fault = std::make_error_code(std::errc::not_a_directory);
    }
  };
  look();
  if (fault != std::errc::no_such_file_or_directory) return;
  const FilePath above = path.parent_path();
  if (!above.empty() && above != path) {
    make_folders(above, fault);
    if (fault) return;
  }
  // "folder/" is the folder, which is there by now.
  if (!path.has_filename() || system_calls::mkdir(path.c_str()) == 0) {
    fault.clear();
    return;
  }
  fault = last_fault();
  if (fault == std::errc::file_exists) look();
}

}  // namespace sheaf
