// Bytes as a JPEG file. What comes out must be read again and stay as it is.

#include <cstdlib>

#include "fuzz_images.h"
#include "pictures/jpeg_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  using sheaf::fuzz::must_hold;
  std::string bytes = "\xFF\xD8";
  bytes.append(reinterpret_cast<const char*>(data), size);
  std::string why;
  const auto file = sheaf::read_jpeg_file(bytes, why);
  if (file && static_cast<std::uint64_t>(file->width) *
                      static_cast<std::uint64_t>(file->height) >
                  sheaf::fuzz::kManyPixels) {
    return 0;
  }
  const auto picture = sheaf::fuzz::decode_checked(bytes);
  if (!picture) return 0;
  must_hold(file.has_value());
  const auto& image = std::get<sheaf::JpegImage>(picture->image);
  must_hold(image.components == 1 || image.components == 3);
  const auto again = sheaf::fuzz::decode_checked(image.bytes);
  if (!again) std::abort();
  const auto& same = std::get<sheaf::JpegImage>(again->image);
  must_hold(same.bytes == image.bytes && same.width == image.width &&
            same.height == image.height && same.components == image.components);
  return 0;
}
