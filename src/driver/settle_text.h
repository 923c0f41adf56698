#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "driver/workspace.h"

namespace sheaf {

/// Choices that are written out where the lesson comes out the same with them.
struct SettledParts {
  bool splits = true;      ///< graphemes of each word
  bool sort_words = true;  ///< pictures of the picture sort
};

/// The lesson with every choice written out: words, order, what is taught,
/// conventions, layout, pictures. `pictures` are the lesson's picture files as
/// they are to stand in it, a word and its text each. The teacher's remarks at
/// the top and all keys that leave nothing open stay as they were typed.
/// Nothing where two of its keys share a line, which `why` says then.
std::optional<std::string> settled_text(
    const PreparedLesson& lesson,
    const std::vector<std::pair<std::string, std::string>>& pictures,
    const SettledParts& parts, std::string& why);

}  // namespace sheaf
