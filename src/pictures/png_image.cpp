#include "pictures/png_image.h"

#include <algorithm>
#include <memory>
#include <new>
#include <vector>

#include "pictures/decode_image.h"
#include "pictures/image_bytes.h"
#include "pictures/scale_down.h"

#include <png.h>

namespace sheaf {

namespace {

constexpr std::string_view kSignature("\x89PNG\r\n\x1A\n", 8);
constexpr std::string_view kCutShort = "it is cut short";
constexpr std::string_view kDamaged = "it is damaged";

// The parts of a file that are drawn. Whatever else stands in it, such as texts
// and colour profiles, some of them packed, is not even looked at.
constexpr std::string_view kWanted[] = {"IHDR", "PLTE", "tRNS", "gAMA",
                                        "sRGB", "IDAT", "IEND"};

// A part of the file: length, four letters, contents, checksum.
struct Chunk {
  std::string_view kind;
  std::string_view contents;
  std::string_view whole;
};

// Takes the next part off the front; false where it is not whole.
bool next_chunk(std::string_view& bytes, Chunk& chunk) {
  constexpr std::size_t kFrame = 12;
  if (bytes.size() < kFrame) return false;
  const std::size_t length = big_endian_32(bytes, 0);
  if (length > bytes.size() - kFrame) return false;
  chunk = {bytes.substr(4, 4), bytes.substr(8, length),
           bytes.substr(0, length + kFrame)};
  bytes.remove_prefix(chunk.whole.size());
  return true;
}

// A capital first letter says that the file cannot be shown without the part.
bool is_critical(std::string_view kind) {
  return kind[0] >= 'A' && kind[0] <= 'Z';
}

// The file with only the wanted parts; empty where it is not whole.
std::string bare_file(std::string_view bytes, std::string& why) {
  std::string bare(kSignature);
  bytes.remove_prefix(kSignature.size());
  Chunk chunk;
  while (next_chunk(bytes, chunk)) {
    const bool first = bare.size() == kSignature.size();
    if (first != (chunk.kind == "IHDR") ||
        (first && chunk.contents.size() != 13)) {
      why = kDamaged;
      return {};
    }
    if (first && !is_size_allowed(big_endian_32(chunk.contents, 0),
                                  big_endian_32(chunk.contents, 4), why)) {
      return {};
    }
    if (std::find(std::begin(kWanted), std::end(kWanted), chunk.kind) !=
        std::end(kWanted)) {
      bare += chunk.whole;
    } else if (is_critical(chunk.kind)) {
      why = kDamaged;
      return {};
    }
    if (chunk.kind == "IEND") return bare;
  }
  why = kCutShort;
  return {};
}

struct PngDelete {
  void operator()(png_image* image) const {
    png_image_free(image);
    delete image;
  }
};

// As if printed on white paper.
void lay_on_white(std::vector<std::uint8_t>& row,
                  const std::uint8_t* with_alpha) {
  for (std::size_t i = 0; i < row.size() / 3; ++i) {
    const unsigned alpha = with_alpha[4 * i + 3];
    for (std::size_t c = 0; c < 3; ++c) {
      const unsigned mixed =
          with_alpha[4 * i + c] * alpha + 255 * (255 - alpha);
      row[3 * i + c] = static_cast<std::uint8_t>((mixed + 127) / 255);
    }
  }
}

PixelImage scaled_on_white(const std::vector<std::uint8_t>& pixels, int width,
                           int height) {
  ScaleDown scale(width, height, 3, kEnoughPixels);
  std::vector<std::uint8_t> row(static_cast<std::size_t>(width) * 3);
  for (int y = 0; y < height; ++y) {
    lay_on_white(row, pixels.data() + static_cast<std::size_t>(y) *
                                          static_cast<std::size_t>(width) * 4);
    scale.add_row(row);
  }
  PixelImage result;
  result.width = scale.width();
  result.height = scale.height();
  result.rgb = scale.take();
  return result;
}

}  // namespace

bool is_png(std::string_view bytes) { return bytes.starts_with(kSignature); }

std::optional<PixelImage> decode_png(std::string_view bytes, std::string& why) {
  const std::string bare = bare_file(bytes, why);
  if (bare.empty()) return std::nullopt;
  // libpng's simplified interface: it catches its own errors and never ends
  // the program.
  const std::unique_ptr<png_image, PngDelete> image(new png_image{});
  image->version = PNG_IMAGE_VERSION;
  if (!png_image_begin_read_from_memory(image.get(), bare.data(),
                                        bare.size())) {
    why = kDamaged;
    return std::nullopt;
  }
  image->format = PNG_FORMAT_RGBA;
  // Sixteen-bit pictures without a note on brightness are like all others.
  image->flags |= PNG_IMAGE_FLAG_16BIT_sRGB;
  std::vector<std::uint8_t> pixels(PNG_IMAGE_SIZE(*image));
  const int width = static_cast<int>(image->width);
  const int height = static_cast<int>(image->height);
  if (!png_image_finish_read(image.get(), nullptr, pixels.data(), 0, nullptr) ||
      PNG_IMAGE_FAILED(*image)) {
    why = kDamaged;
    return std::nullopt;
  }
  return scaled_on_white(pixels, width, height);
}

}  // namespace sheaf
