#pragma once

#include <string>

#include "layout/block.h"

namespace sheaf {

/// What eyes see without letters, as elements that say it. Marks drawn with
/// such an id are heard as the text; everything that belongs to the thing is
/// drawn with the same id, so that it is said once.

/// A stretch of a line that is heard as `text`: a blank, an arrow, a sign.
ElementId add_heard(Composer& composer, ElementId parent, std::string text);
/// A blank to write on inside a text: "blank".
ElementId add_blank(Composer& composer, ElementId parent);
/// A square or ring to tick: "tick box"; several of them at once: "3 tick
/// boxes".
ElementId add_tick_boxes(Composer& composer, ElementId parent, int count = 1);
/// Lines to write on: "a line to write on", "4 lines to write on".
ElementId add_writing_lines(Composer& composer, ElementId parent,
                            int count = 1);

}  // namespace sheaf
