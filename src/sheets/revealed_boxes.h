#pragma once

#include <span>

#include "layout/sound_boxes.h"
#include "sheets/sheet.h"

namespace sheaf {

/// Sound boxes for a board: each word in the middle of a page of its own, with
/// its number and an ear (the teacher says it), its boxes as large as the page
/// allows; and on the next page the same with its letters. `fill` is what the
/// first of them has; `least_box` and `x_height` are where they begin to grow.
struct RevealedBoxes {
  BoxFill fill = BoxFill::empty;
  bool slots = true;
  Length least_box;
  Length x_height;
};
void add_revealed_boxes(Composer& composer,
                        std::span<const AnalyzedWord* const> words,
                        const RevealedBoxes& options);

}  // namespace sheaf
