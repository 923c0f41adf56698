#include "pictures/pixels.h"

#include <algorithm>

#include "pictures/scale_down.h"

namespace sheaf {

namespace {

std::uint8_t rounded(unsigned value, unsigned by) {
  return static_cast<std::uint8_t>(std::min(255U, (value + by / 2) / by));
}

// Where a pixel lets the ground through, its colour is scaled weighted by what
// it hides: else the colour of what cannot be seen would show at the edges.
PixelImage scaled_with_alpha(const PixelImage& image, int longest) {
  ScaleDown scale(image.width, image.height, 4, longest);
  const auto width = static_cast<std::size_t>(image.width);
  std::vector<std::uint8_t> row(width * 4);
  for (std::size_t y = 0; y < static_cast<std::size_t>(image.height); ++y) {
    for (std::size_t x = 0; x < width; ++x) {
      const std::size_t at = y * width + x;
      const unsigned alpha = image.alpha[at];
      for (std::size_t c = 0; c < 3; ++c) {
        row[4 * x + c] = rounded(image.rgb[3 * at + c] * alpha, 255);
      }
      row[4 * x + 3] = static_cast<std::uint8_t>(alpha);
    }
    scale.add_row(row);
  }
  PixelImage result{scale.width(), scale.height(), {}, {}};
  const std::vector<std::uint8_t> pixels = scale.take();
  for (std::size_t i = 0; i + 3 < pixels.size(); i += 4) {
    const unsigned alpha = pixels[i + 3];
    for (std::size_t c = 0; c < 3; ++c) {
      result.rgb.push_back(alpha == 0 ? 255
                                      : rounded(pixels[i + c] * 255U, alpha));
    }
    result.alpha.push_back(static_cast<std::uint8_t>(alpha));
  }
  return result;
}

}  // namespace

PixelImage scaled_down(const PixelImage& image, int longest) {
  if (std::max(image.width, image.height) <= longest) return image;
  if (!image.alpha.empty()) return scaled_with_alpha(image, longest);
  ScaleDown scale(image.width, image.height, 3, longest);
  const std::size_t row = static_cast<std::size_t>(image.width) * 3;
  for (std::size_t y = 0; y < static_cast<std::size_t>(image.height); ++y) {
    scale.add_row({image.rgb.data() + y * row, row});
  }
  return {scale.width(), scale.height(), scale.take(), {}};
}

std::uint8_t grey_of(std::uint8_t red, std::uint8_t green, std::uint8_t blue) {
  return rounded(299U * red + 587U * green + 114U * blue, 1000);
}

PixelImage turned_grey(PixelImage image) {
  for (std::size_t i = 0; i + 2 < image.rgb.size(); i += 3) {
    const std::uint8_t grey =
        grey_of(image.rgb[i], image.rgb[i + 1], image.rgb[i + 2]);
    std::fill_n(image.rgb.begin() + static_cast<std::ptrdiff_t>(i), 3, grey);
  }
  return image;
}

}  // namespace sheaf
