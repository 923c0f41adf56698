#pragma once

#include <string_view>

namespace sheaf {

/// A file of src/data that is built into the program, as it stands there.
std::string_view messages_table();

}  // namespace sheaf
