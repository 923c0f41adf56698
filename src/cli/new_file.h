#pragma once

#include <string>
#include <string_view>

#include "files/files.h"

namespace sheaf {

/// Writes a file that must not be there yet: whole, or not at all. False where
/// something of that name is there, which is left alone, whoever made it and
/// however lately. Makes the folder if needed. Throws MachineError where it
/// cannot write.
bool write_new_file(Files& files, const FilePath& target,
                    std::string_view bytes);

/// The text of a lesson, class, layout or sequence file (`kind`) with the line
/// that lets editors complete and check it, below the comment that it begins
/// with. The line names the schema as seen from `target` if one of the four
/// folders above it has `schemas/`, else the one that Sheaf came with.
std::string with_modeline(std::string text, std::string_view kind,
                          const FilePath& target);

}  // namespace sheaf
