#pragma once

#include <string>
#include <string_view>

#include "driver/workspace.h"
#include "files/path.h"
#include "planning/block_list.h"

namespace sheaf {

/// The teacher's own list of blocked words, if there is one: the file asked
/// for, else the one in `folder`. Throws MachineError where it is too long.
inline constexpr std::string_view kBlockedFile = "blocked-words.txt";
BlockList own_block_list(Workspace& workspace, const std::string& asked_for,
                         const FilePath& folder);

/// Whether the picture table has a picture of the word that children name so.
bool has_clear_picture(std::string_view word);

}  // namespace sheaf
