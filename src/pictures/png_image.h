#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "pictures/picture.h"

namespace sheaf {

/// Whether the bytes begin as a PNG file does.
bool is_png(std::string_view bytes);

/// The pixels of a PNG file, on white, no larger than needed; nothing where it
/// is damaged or too large, with the reason in `why`. (PNG, third edition, W3C)
std::optional<PixelImage> decode_png(std::string_view bytes, std::string& why);

}  // namespace sheaf
