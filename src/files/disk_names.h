#pragma once

#include <optional>
#include <string>
#include <system_error>
#include <vector>

#include "files/path.h"

namespace sheaf {

/// Names on a disk, looked up. What cannot be known is a fault, as in the
/// standard library; want of memory is thrown.

/// Throws std::bad_alloc where a call failed for want of memory.
void check_memory(const std::error_code& fault);
/// Whether a call failed since nothing can be under such a name.
bool is_nothing_there(const std::error_code& fault);
/// What the system has just said.
std::error_code last_fault();

/// The names of what is in a folder, in no order.
std::vector<std::string> names_in(const FilePath& folder,
                                  std::error_code& fault);
/// The one name of what is there, without links.
FilePath name_without_links(const FilePath& path, std::error_code& fault);
/// The name from the top folder on.
FilePath whole_name(const FilePath& path, std::error_code& fault);
/// What a link leads to, as it says.
FilePath named_by_link(const FilePath& link, std::error_code& fault);
/// Makes a folder and those above it, as far as they are not there.
void make_folders(const FilePath& path, std::error_code& fault);

}  // namespace sheaf
