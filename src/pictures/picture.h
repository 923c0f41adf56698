#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "base/geometry.h"

namespace sheaf {

/// A line drawing: filled outlines (non-zero winding) in a box of its own
/// units, y downwards. Printed black; drawn once in a PDF and reused.
struct LineDrawing {
  Size box;
  Path path;
};

/// Decoded pixels, rows from the top. `alpha` is empty or one byte a pixel.
struct PixelImage {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> rgb;
  std::vector<std::uint8_t> alpha;
};

/// A JPEG file, checked, embedded as it is.
struct JpegImage {
  int width = 0;
  int height = 0;
  int components = 3;
  std::string bytes;
};

/// A picture that can stand on a page. Owned by the picture store; pages hold
/// plain pointers.
struct Picture {
  /// The word that it shows, or the file's name; for alternative text.
  std::string name;
  std::variant<LineDrawing, PixelImage, JpegImage> image;
};

}  // namespace sheaf
