#pragma once

#include <string_view>

#include "layout/block.h"

namespace sheaf {

/// What stands below a text to read, the same on every sheet that has one.

/// Adds "I read it again." with rings to tick, one for each reading; nothing
/// where there are none. `indent` is from the left edge of the body.
void add_reading_rings(Composer& composer, int readings, Length indent);
/// The room that they take, with the blank before them.
Length reading_rings_height(const Composer& composer, int readings);

/// Adds a heading and lines to write down what was found, up to `most` of them,
/// as the last page has room; neither where it has none.
void add_lines_as_room(Composer& composer, std::string_view heading, int most);
/// The room that the heading and `count` lines take.
Length lines_height(const Composer& composer, int count);

}  // namespace sheaf
