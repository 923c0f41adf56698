#include "pictures/decode_image.h"

#include "pictures/image_bytes.h"
#include "pictures/jpeg_image.h"
#include "pictures/png_image.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

struct FileKind {
  std::string_view name;
  std::size_t at;  // where the mark stands
  std::string_view mark;
};

constexpr FileKind kOtherKinds[] = {
    {"a GIF picture", 0, "GIF8"},        {"a WebP picture", 8, "WEBP"},
    {"a HEIC photo", 4, "ftypheic"},     {"a HEIC photo", 4, "ftypheix"},
    {"a HEIC photo", 4, "ftypmif1"},     {"an AVIF picture", 4, "ftypavif"},
    {"a BMP picture", 0, "BM"},          {"a TIFF picture", 0, {"II*\0", 4}},
    {"a TIFF picture", 0, {"MM\0*", 4}}, {"a PDF file", 0, "%PDF"},
    {"an SVG drawing", 0, "<svg"},       {"an SVG drawing", 0, "<?xml"},
};

std::string_view kind_of(std::string_view bytes) {
  for (const FileKind& kind : kOtherKinds) {
    if (bytes.size() >= kind.at &&
        bytes.substr(kind.at).starts_with(kind.mark)) {
      return kind.name;
    }
  }
  return {};
}

}  // namespace

bool is_size_allowed(std::uint32_t width, std::uint32_t height,
                     std::string& why) {
  if (width == 0 || height == 0) {
    why = "it is damaged: it has no size";
    return false;
  }
  constexpr std::uint32_t kSide = kMaxImageSide;
  if (width > kSide || height > kSide ||
      std::uint64_t{width} * height > std::uint64_t{kMaxImagePixels}) {
    why = fmt::format(
        "it is too large: {} by {} dots, and at most {} million dots, {} on a "
        "side, are read",
        width, height, kMaxImagePixels / 1'000'000, kMaxImageSide);
    return false;
  }
  return true;
}

std::optional<Picture> decode_image(std::string_view bytes, std::string name,
                                    std::string& why) {
  if (bytes.empty()) {
    why = "it is empty";
    return std::nullopt;
  }
  if (bytes.size() > kMaxImageBytes) {
    why = fmt::format("it is larger than {} MiB", kMaxImageBytes >> 20);
    return std::nullopt;
  }
  Picture picture{std::move(name), {}};
  if (is_png(bytes)) {
    std::optional<PixelImage> image = decode_png(bytes, why);
    if (!image) return std::nullopt;
    picture.image = std::move(*image);
    return picture;
  }
  if (is_jpeg(bytes)) {
    std::optional<JpegImage> image = decode_jpeg(bytes, why);
    if (!image) return std::nullopt;
    picture.image = std::move(*image);
    return picture;
  }
  const std::string_view kind = kind_of(bytes);
  why = kind.empty() ? "it is not a PNG or JPEG picture"
                     : fmt::format("it is {}, not a PNG or JPEG picture", kind);
  return std::nullopt;
}

}  // namespace sheaf
