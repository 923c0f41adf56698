#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "pictures/picture.h"

namespace sheaf {

/// Whether the bytes begin as a JPEG file does.
bool is_jpeg(std::string_view bytes);

/// A JPEG file that a PDF can hold. It stays as its maker packed it where it
/// is upright, in grey or in ordinary colours, and of a sensible size;
/// otherwise it is turned, made smaller or mixed to ordinary colours, and
/// packed anew. Nothing where it is damaged or too large, with the reason in
/// `why`.
std::optional<JpegImage> decode_jpeg(std::string_view bytes, std::string& why);

/// The picture with its longer side brought down to `longest` pixels, in shades
/// of grey if so asked, and packed for print. Nothing where it cannot be
/// unpacked.
std::optional<JpegImage> packed_again(const JpegImage& image, int longest,
                                      bool grey);

/// Its pixels, for a screen. Nothing where it cannot be unpacked.
std::optional<PixelImage> pixels_of(const JpegImage& image);

}  // namespace sheaf
