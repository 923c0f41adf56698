#include "pictures/jpeg_image.h"

#include <algorithm>
#include <vector>

#include "base/error.h"
#include "pictures/decode_image.h"
#include "pictures/jpeg_codec.h"
#include "pictures/jpeg_file.h"
#include "pictures/pixels.h"
#include "pictures/scale_down.h"

namespace sheaf {

namespace {

// In libjpeg's scale to 100. A picture that is kept may be packed once more
// when its size on paper is known, so it loses less the first time.
constexpr int kKeptQuality = 90;
constexpr int kPrintedQuality = 85;

// Unpacked pixels of 1 or 3 bytes.
struct Pixels {
  int width = 0;
  int height = 0;
  int channels = 3;
  std::vector<std::uint8_t> bytes;
};

// Cyan, magenta, yellow and black as light, without regard to inks: good
// enough for a picture that is photocopied.
void mix_to_rgb(std::vector<std::uint8_t>& rgb,
                const std::vector<std::uint8_t>& cmyk, bool upside_down) {
  for (std::size_t i = 0; i < cmyk.size() / 4; ++i) {
    const auto light = [&](std::size_t c) {
      const unsigned ink = cmyk[4 * i + c];
      return upside_down ? ink : 255 - ink;
    };
    for (std::size_t c = 0; c < 3; ++c) {
      rgb[3 * i + c] =
          static_cast<std::uint8_t>((light(c) * light(3) + 127) / 255);
    }
  }
}

// Unpacks the whole picture, no larger than `longest`.
std::optional<Pixels> unpack(JpegDecoder& decoder, int longest) {
  const int channels = decoder.channels();
  const int kept = channels == 4 ? 3 : channels;
  const auto width = static_cast<std::size_t>(decoder.width());
  ScaleDown scale(decoder.width(), decoder.height(), kept, longest);
  std::vector<std::uint8_t> row(width * static_cast<std::size_t>(channels));
  std::vector<std::uint8_t> rgb(channels == 4 ? width * 3 : 0);
  for (int y = 0; y < decoder.height(); ++y) {
    if (!decoder.read_row(row)) return std::nullopt;
    if (channels == 4) mix_to_rgb(rgb, row, decoder.has_adobe_mark());
    scale.add_row(channels == 4 ? rgb : row);
  }
  if (!decoder.finish()) return std::nullopt;
  return Pixels{scale.width(), scale.height(), kept, scale.take()};
}

bool is_whole(JpegDecoder& decoder) {
  std::vector<std::uint8_t> row(static_cast<std::size_t>(decoder.width()) *
                                static_cast<std::size_t>(decoder.channels()));
  for (int y = 0; y < decoder.height(); ++y) {
    if (!decoder.read_row(row)) return false;
  }
  return decoder.finish();
}

// Turns and mirrors so that the picture is upright. (Exif 2.32, Orientation)
Pixels upright(Pixels from, int orientation) {
  if (orientation == 1) return from;
  const bool on_its_side = orientation >= 5;
  Pixels to{from.width, from.height, from.channels, {}};
  if (on_its_side) std::swap(to.width, to.height);
  to.bytes.reserve(from.bytes.size());
  const bool mirrored_x = orientation == 2 || orientation == 3 ||
                          orientation == 7 || orientation == 8;
  const bool mirrored_y = orientation == 3 || orientation == 4 ||
                          orientation == 6 || orientation == 7;
  for (int y = 0; y < to.height; ++y) {
    for (int x = 0; x < to.width; ++x) {
      int from_x = on_its_side ? y : x;
      int from_y = on_its_side ? x : y;
      if (mirrored_x) from_x = from.width - 1 - from_x;
      if (mirrored_y) from_y = from.height - 1 - from_y;
      const auto pixel =
          from.bytes.begin() +
          (std::ptrdiff_t{from_y} * from.width + from_x) * from.channels;
      to.bytes.insert(to.bytes.end(), pixel, pixel + from.channels);
    }
  }
  return to;
}

// What every reader of PDF shows in the same way.
bool can_stay(const JpegFile& file, J_COLOR_SPACE colours, bool odd) {
  return file.orientation == 1 && !odd &&
         (colours == JCS_GRAYSCALE || colours == JCS_YCbCr) &&
         std::max(file.width, file.height) <= 2 * kEnoughPixels;
}

// The decoder can halve a picture while unpacking it, which is much faster.
unsigned halvings(int width, int height, int longest) {
  const int longer = std::max(width, height);
  for (const int by : {8, 4, 2}) {
    if (longer / by >= longest) return static_cast<unsigned>(by);
  }
  return 1;
}

JpegImage packed(const Pixels& pixels, int quality) {
  JpegImage image{pixels.width, pixels.height, pixels.channels, {}};
  image.bytes = encode_jpeg(pixels.bytes, pixels.width, pixels.height,
                            pixels.channels, quality);
  if (image.bytes.empty()) {
    throw MachineError("there is not enough memory for a picture");
  }
  return image;
}

void turn_grey(Pixels& pixels) {
  if (pixels.channels != 3) return;
  for (std::size_t i = 0; i < pixels.bytes.size() / 3; ++i) {
    const std::uint8_t* rgb = pixels.bytes.data() + 3 * i;
    pixels.bytes[i] = grey_of(rgb[0], rgb[1], rgb[2]);
  }
  pixels.bytes.resize(pixels.bytes.size() / 3);
  pixels.channels = 1;
}

std::optional<JpegImage> packed_anew(JpegDecoder& decoder,
                                     const JpegFile& file) {
  std::optional<Pixels> pixels;
  if (decoder.start(halvings(file.width, file.height, kEnoughPixels))) {
    pixels = unpack(decoder, kEnoughPixels);
  }
  if (!pixels) return std::nullopt;
  return packed(upright(std::move(*pixels), file.orientation), kKeptQuality);
}

// The file as it is, or packed anew; nothing where it cannot be unpacked whole.
std::optional<JpegImage> checked(JpegFile file) {
  bool stays = false;
  {
    JpegDecoder decoder;
    if (!decoder.open(file.bare)) return std::nullopt;
    stays = can_stay(file, decoder.packed_colours(), decoder.odd());
    if (stays) {
      if (!decoder.start(1) || !is_whole(decoder)) return std::nullopt;
      // Some oddities show only while unpacking.
      stays = !decoder.odd();
    }
  }
  if (stays) {
    return JpegImage{file.width, file.height, file.components,
                     std::move(file.bare)};
  }
  JpegDecoder decoder;
  if (!decoder.open(file.bare)) return std::nullopt;
  return packed_anew(decoder, file);
}

}  // namespace

bool is_jpeg(std::string_view bytes) { return bytes.starts_with("\xFF\xD8"); }

std::optional<JpegImage> decode_jpeg(std::string_view bytes, std::string& why) {
  std::optional<JpegFile> file = read_jpeg_file(bytes, why);
  if (!file) return std::nullopt;
  std::optional<JpegImage> image = checked(std::move(*file));
  if (!image) why = "it is damaged or cut short";
  return image;
}

std::optional<JpegImage> packed_again(const JpegImage& image, int longest,
                                      bool grey) {
  JpegDecoder decoder;
  if (!decoder.open(image.bytes) ||
      !decoder.start(halvings(image.width, image.height, longest))) {
    return std::nullopt;
  }
  std::optional<Pixels> pixels = unpack(decoder, longest);
  if (!pixels) return std::nullopt;
  if (grey) turn_grey(*pixels);
  return packed(*pixels, kPrintedQuality);
}

std::optional<PixelImage> pixels_of(const JpegImage& image) {
  JpegDecoder decoder;
  if (!decoder.open(image.bytes) || !decoder.start(1)) return std::nullopt;
  std::optional<Pixels> pixels =
      unpack(decoder, std::max(decoder.width(), decoder.height()));
  if (!pixels) return std::nullopt;
  PixelImage result{pixels->width, pixels->height, {}, {}};
  if (pixels->channels == 3) {
    result.rgb = std::move(pixels->bytes);
  } else {
    result.rgb.reserve(3 * pixels->bytes.size());
    for (const std::uint8_t grey : pixels->bytes) {
      result.rgb.insert(result.rgb.end(), 3, grey);
    }
  }
  return result;
}

}  // namespace sheaf
