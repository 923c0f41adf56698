#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace sheaf {

/// What stands in a JPEG file around its picture: read here without decoding
/// anything. (ITU-T T.81; Exif 2.32 for the way up)
struct JpegFile {
  int width = 0;
  int height = 0;
  int components = 0;
  /// How the camera was held: 1 is upright; 1 to 8 as in Exif.
  int orientation = 1;
  /// The file without what its maker wrote about it: no place, time, small
  /// picture or colour profile, nothing after its end.
  std::string bare;
};

/// Nothing where the file is cut short, damaged, too large or of a rare kind,
/// with the reason in `why`. What the compressed picture holds is not checked.
std::optional<JpegFile> read_jpeg_file(std::string_view bytes,
                                       std::string& why);

}  // namespace sheaf
