#pragma once

#include <optional>

#include "base/length.h"
#include "pictures/picture.h"

namespace sheaf {

/// How fine pictures are printed: dots an inch. Office printers show no more of
/// a photo (common practice, no source).
inline constexpr int kPrintedDots = 300;

/// The pixels along a side of that length.
int printed_pixels(Length side);

/// What is put into a file of a picture whose longer side is nowhere printed
/// longer than `side`: brought down to `kPrintedDots` where it is finer, and in
/// shades of grey where that is asked for. A JPEG photo stays one. Nothing
/// where the picture goes in as it is: a drawing, or one that needs neither.
/// Throws MachineError where it cannot be unpacked.
std::optional<Picture> printed_picture(const Picture& picture, Length side,
                                       bool grey);

}  // namespace sheaf
