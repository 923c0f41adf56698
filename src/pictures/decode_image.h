#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "pictures/picture.h"

namespace sheaf {

/// Reading a teacher's own picture file. Such files come from anywhere: sizes
/// are checked before anything is decoded, every file is decoded whole once,
/// and what cannot be decoded whole is refused.

/// Limits on what is read.
constexpr std::size_t kMaxImageBytes = std::size_t{32} << 20;
constexpr int kMaxImageSide = 8192;
constexpr int kMaxImagePixels = 4096 * 4096;

/// Pixels that a picture needs on its longer side: 80 mm at 300 dots an inch.
/// Larger pictures are made smaller.
constexpr int kEnoughPixels = 945;

/// The picture in the bytes of a PNG or JPEG file, upright, without what a
/// camera wrote about the place and time, and on white where it lets the
/// ground shine through. Nothing where it cannot be used, with the reason in
/// `why` ("it is cut short"). `name` becomes the picture's name.
std::optional<Picture> decode_image(std::string_view bytes, std::string name,
                                    std::string& why);

}  // namespace sheaf
