#include <array>
#include <cmath>
#include <memory>
#include <new>
#include <string_view>

#include "base/error.h"
#include "preview/own_png.h"
#include "preview/preview.h"

#include <png.h>

namespace sheaf {

namespace {

constexpr std::string_view kSignature("\x89PNG\r\n\x1A\n", 8);
constexpr std::string_view kMadeBy("Software\0Sheaf", 14);
// A part is its length, four letters, contents and a checksum.
constexpr std::size_t kFrame = 12;
constexpr std::size_t kFirstPart = kFrame + 13;

std::string big_endian_32(std::uint32_t value) {
  std::string bytes;
  for (int shift = 24; shift >= 0; shift -= 8) {
    bytes += static_cast<char>(value >> shift & 0xFFU);
  }
  return bytes;
}

std::uint32_t number_at(std::string_view bytes) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    value = value << 8U | static_cast<unsigned char>(bytes[i]);
  }
  return value;
}

// The checksum of a part (PNG, third edition, 5.5 and D).
std::uint32_t checksum(std::string_view bytes) {
  std::uint32_t sum = 0xFFFFFFFFU;
  for (const char c : bytes) {
    sum ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) {
      sum = (sum & 1U) != 0 ? sum >> 1U ^ 0xEDB88320U : sum >> 1U;
    }
  }
  return ~sum;
}

std::string part(std::string_view kind, std::string_view contents) {
  std::string text(kind);
  text += contents;
  return big_endian_32(static_cast<std::uint32_t>(contents.size())) + text +
         big_endian_32(checksum(text));
}

std::string resolution(int dpi) {
  const auto per_metre = static_cast<std::uint32_t>(std::lround(dpi / 0.0254));
  return big_endian_32(per_metre) + big_endian_32(per_metre) + '\x01';
}

struct PngDelete {
  void operator()(png_image* image) const {
    png_image_free(image);
    delete image;
  }
};

}  // namespace

std::string write_png(const PreviewImage& image) {
  // libpng's simplified interface catches its own errors.
  const std::unique_ptr<png_image, PngDelete> png(new png_image{});
  png->version = PNG_IMAGE_VERSION;
  png->width = static_cast<png_uint_32>(image.width);
  png->height = static_cast<png_uint_32>(image.height);
  png->format = image.colour ? PNG_FORMAT_RGB : PNG_FORMAT_GRAY;
  // Without filters and packed quickly: best for letters on white, too.
  png->flags = PNG_IMAGE_FLAG_FAST;
  std::string bytes(PNG_IMAGE_PNG_SIZE_MAX(*png), '\0');
  png_alloc_size_t size = bytes.size();
  if (!png_image_write_to_memory(png.get(), bytes.data(), &size, 0,
                                 image.pixels.data(), 0, nullptr)) {
    throw MachineError(std::string("a picture cannot be written as PNG: ") +
                       png->message);
  }
  bytes.resize(size);
  // It writes no text, so that is put before the pixels.
  std::string about;
  if (image.dpi > 0) about += part("pHYs", resolution(image.dpi));
  about += part("tEXt", kMadeBy);
  const std::size_t pixels = bytes.find("IDAT", kSignature.size() + kFirstPart);
  if (pixels == std::string::npos) {
    throw MachineError("a picture cannot be written as PNG");
  }
  bytes.insert(pixels - 4, about);
  return bytes;
}

bool is_own_png(std::uint64_t size,
                const std::function<std::string(std::uint64_t begin,
                                                std::size_t size)>& read) {
  constexpr std::size_t kHead = 8;
  std::uint64_t at = kSignature.size();
  if (size < at || read(0, kSignature.size()) != kSignature) return false;
  std::string seen;  // a letter a part
  while (at + kFrame <= size) {
    const std::string head = read(at, kHead + kMadeBy.size());
    if (head.size() < kHead) return false;
    const std::uint32_t length = number_at(head);
    const std::string_view kind = std::string_view(head).substr(4, 4);
    const std::string_view contents = std::string_view(head).substr(kHead);
    if (kind == "IHDR") {
      seen += 'h';
    } else if (kind == "sRGB") {
      seen += 's';
    } else if (kind == "pHYs") {
      seen += 'p';
    } else if (kind == "tEXt" && length == kMadeBy.size() &&
               contents == kMadeBy) {
      seen += 't';
    } else if (kind == "IDAT") {
      if (!seen.ends_with('d')) seen += 'd';
    } else if (kind == "IEND") {
      seen += 'e';
    } else {
      return false;
    }
    // Six parts at most; more are none that Sheaf wrote.
    if (seen.size() > 6) return false;
    at += kFrame + length;
    if (seen.ends_with('e')) break;
  }
  return at == size && (seen == "hstde" || seen == "hsptde");
}

}  // namespace sheaf
