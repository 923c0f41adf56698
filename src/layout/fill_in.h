#pragma once

#include <string>
#include <vector>

#include "layout/block.h"

namespace sheaf {

/// Adds a row of labels, each with a line to write on: for teacher's pages.
void add_fill_in_lines(Composer& composer,
                       const std::vector<std::string>& labels,
                       Length space_before);

}  // namespace sheaf
