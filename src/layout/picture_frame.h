#pragma once

#include "layout/block.h"

namespace sheaf {

/// Draws a picture into a square of `box`, or, where there is none, a light
/// frame for the learner to draw in. `figure` is a figure element whose
/// alternative text says what is there.
void draw_picture(Block& block, const Style& style, const Picture* picture,
                  const Rect& box, ElementId figure);

}  // namespace sheaf
