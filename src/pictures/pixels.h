#pragma once

#include "pictures/picture.h"

namespace sheaf {

/// Pixels made into other pixels. Nothing here knows a file or a page.

/// The picture with its longer side brought down to `longest` pixels; one that
/// is no longer stays as it is. Each new pixel is the mean of the area that it
/// covers, of the values as they are stored: a mean of light would let the thin
/// dark lines of a drawing fade. Colours count by how much they hide.
PixelImage scaled_down(const PixelImage& image, int longest);

/// The picture in shades of grey: the luma of ITU-R BT.601, 0.299 red + 0.587
/// green + 0.114 blue, which is also the grey that a JPEG file holds (ITU-T
/// T.871). What it lets through stays.
PixelImage turned_grey(PixelImage image);

/// The same of one pixel.
std::uint8_t grey_of(std::uint8_t red, std::uint8_t green, std::uint8_t blue);

}  // namespace sheaf
