#pragma once

#include "pictures/picture.h"
#include "preview/canvas.h"
#include "preview/shapes.h"

namespace sheaf {

/// Draws pixels into the box from `corner` on, in pixels of the canvas: made
/// smaller, each new pixel is the mean of what it covers; made larger, pixels
/// run into one another. Where the box ends within a pixel, that pixel is
/// covered in part.
void draw_pixels(Canvas& canvas, const PixelImage& image, Spot corner,
                 double width, double height);

}  // namespace sheaf
