#include "pictures/printed_picture.h"

#include <algorithm>
#include <cmath>

#include "base/error.h"
#include "pictures/jpeg_image.h"
#include "pictures/pixels.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

// A picture that is finer by less than this is left alone: packing a photo
// again would lose more than it saves.
constexpr double kWorthIt = 1.03;

bool has_colour(const PixelImage& image) {
  for (std::size_t i = 0; i + 2 < image.rgb.size(); i += 3) {
    if (image.rgb[i] != image.rgb[i + 1] || image.rgb[i] != image.rgb[i + 2]) {
      return true;
    }
  }
  return false;
}

}  // namespace

int printed_pixels(Length side) {
  return std::max(1,
                  static_cast<int>(std::lround(side.pt() * kPrintedDots / 72)));
}

std::optional<Picture> printed_picture(const Picture& picture, Length side,
                                       bool grey) {
  const int enough = printed_pixels(side);
  const auto longest_for = [&](int width, int height) {
    const int longer = std::max(width, height);
    return longer > kWorthIt * enough ? enough : longer;
  };
  if (const auto* pixels = std::get_if<PixelImage>(&picture.image)) {
    const int longest = longest_for(pixels->width, pixels->height);
    const bool turn = grey && has_colour(*pixels);
    if (longest == std::max(pixels->width, pixels->height) && !turn) {
      return std::nullopt;
    }
    PixelImage made = scaled_down(*pixels, longest);
    if (turn) made = turned_grey(std::move(made));
    return Picture{picture.name, std::move(made)};
  }
  const auto* jpeg = std::get_if<JpegImage>(&picture.image);
  if (jpeg == nullptr) return std::nullopt;
  const int longest = longest_for(jpeg->width, jpeg->height);
  const bool turn = grey && jpeg->components != 1;
  if (longest == std::max(jpeg->width, jpeg->height) && !turn) {
    return std::nullopt;
  }
  std::optional<JpegImage> made = packed_again(*jpeg, longest, turn);
  // It was unpacked whole once when the lesson was read, so it may as well be
  // memory that is lacking.
  if (!made) {
    throw MachineError(fmt::format(
        "a page cannot be written: the picture {} cannot be unpacked",
        picture.name));
  }
  return Picture{picture.name, *std::move(made)};
}

}  // namespace sheaf
