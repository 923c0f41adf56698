#pragma once

#include <string_view>

namespace sheaf {

/// A file of src/data that is built into the program, as it stands there.
std::string_view cue_rules_table();

}  // namespace sheaf
