#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// A command as a teacher can copy it into a shell: words with other signs
/// than letters, figures and those of plain paths stand in single quotes. A
/// word that holds what cannot be shown (a line break) makes it empty.
std::string shell_command(const std::vector<std::string>& words);

/// A path as an argument that no verb takes for an option.
std::string as_argument(std::string_view path);

}  // namespace sheaf
