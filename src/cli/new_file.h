#pragma once

#include <filesystem>
#include <string_view>

namespace sheaf {

/// Writes a file that must not be there yet: whole, or not at all. False where
/// something of that name is there, which is left alone, whoever made it and
/// however lately. Makes the folder if needed. Throws MachineError where it
/// cannot write.
bool write_new_file(const std::filesystem::path& target,
                    std::string_view bytes);

}  // namespace sheaf
