#pragma once

#include <string>
#include <vector>

#include "driver/workspace.h"

namespace sheaf {

/// What the picture sort of the lesson's layout shows, whoever chose it; empty
/// where there is no such sheet or too few pictures.
struct SortWords {
  std::vector<std::string> same;
  std::vector<std::string> other;
};
SortWords picture_sort_words(const PreparedLesson& lesson);

}  // namespace sheaf
