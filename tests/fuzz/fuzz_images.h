#pragma once

#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "pictures/decode_image.h"

namespace sheaf::fuzz {

/// Ends the run where something that must always hold does not.
inline void must_hold(bool holds) {
  if (!holds) std::abort();
}

/// Large pictures take long and find nothing more; their sizes are tested
/// elsewhere.
constexpr std::uint64_t kManyPixels = 128 * 128;

inline std::optional<Picture> decode_checked(std::string_view bytes) {
  std::string why;
  std::optional<Picture> picture = decode_image(bytes, "word", why);
  must_hold(picture.has_value() == why.empty());
  if (!picture) return picture;
  must_hold(picture->name == "word");
  if (const auto* pixels = std::get_if<PixelImage>(&picture->image)) {
    must_hold(pixels->width > 0 && pixels->width <= kEnoughPixels);
    must_hold(pixels->height > 0 && pixels->height <= kEnoughPixels);
    must_hold(pixels->rgb.size() ==
              3 * static_cast<std::size_t>(pixels->width) *
                  static_cast<std::size_t>(pixels->height));
    must_hold(pixels->alpha.empty());
  }
  return picture;
}

}  // namespace sheaf::fuzz
