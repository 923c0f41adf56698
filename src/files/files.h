#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

namespace sheaf {

/// Reads a whole regular file of at most `limit` bytes. Throws MachineError
/// where there is none, it is something else (a folder, a device) or it cannot
/// be read. A longer file is read up to one byte over the limit, so that the
/// reader can say so with a place.
std::string read_file(const std::filesystem::path& path, std::size_t limit);

/// Reads standard input to its end, and no further than one byte over the
/// limit.
std::string read_standard_input(std::size_t limit);

/// Where the things that come with Sheaf are: the folder `share/sheaf` beside
/// the program or beside its `bin`. Throws MachineError if there is none.
std::filesystem::path shipped_folder();

/// The YAML files in a folder, none of those in its folders. Throws
/// MachineError where the folder cannot be read; one that is not there has
/// none.
std::vector<std::filesystem::path> yaml_files(
    const std::filesystem::path& folder);

/// Throws std::bad_alloc where a system call failed for want of memory, so that
/// this is not taken for a file that is not there.
void check_memory(const std::error_code& fault);

/// Looks for a file that another file names: in `folder`, then in `shipped`,
/// then in the allowed folders. A name that is absolute or climbs out of those
/// folders, by itself or through a link, is not found.
std::optional<std::filesystem::path> find_named_file(
    std::string_view name, const std::filesystem::path& folder,
    const std::filesystem::path& shipped,
    const std::vector<std::string>& allowed_folders);

}  // namespace sheaf
