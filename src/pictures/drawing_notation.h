#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/geometry.h"

namespace sheaf {

/// Our own line drawings are written down in src/data/picture_drawings.txt,
/// whose head says how. This reads them.

/// One line of a drawing, in a box of 100 by 100 points, y downwards.
struct DrawnPart {
  Path path;
  /// Width of the pen; 0 for a filled shape.
  Length pen;
};

/// One part from its line of text ("line M 10 20 L 30 40"); nothing where it
/// does not follow the notation, with the reason in `why`. `pen` is the width
/// of an ordinary line.
std::optional<DrawnPart> read_drawn_part(std::string_view line, Length pen,
                                         std::string& why);

/// The lines of the drawing of that name; empty where there is none.
std::vector<std::string_view> drawing_lines(std::string_view name);
/// The names of all drawings, in the order of the file.
std::vector<std::string_view> drawing_names();

}  // namespace sheaf
