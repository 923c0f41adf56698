#pragma once

#include <string_view>

namespace sheaf {

/// Files of src/data that are built into the program, as they stand there.
std::string_view cue_rules_table();
std::string_view speech_varieties_table();

}  // namespace sheaf
