#pragma once

#include <csetjmp>
#include <cstdint>
#include <cstdio>
#include <span>
#include <string>
#include <string_view>

#include <jpeglib.h>

namespace sheaf {

/// libjpeg with owners. Its errors jump out of it, and are met here again as
/// `false`; nothing that needs an end is alive inside such a jump.

struct JpegErrors {
  jpeg_error_mgr base;
  std::jmp_buf jump;
  /// Something that readers may take differently, but no damage.
  bool odd = false;
};

/// Unpacks a JPEG file row by row.
class JpegDecoder {
 public:
  JpegDecoder();
  ~JpegDecoder();
  JpegDecoder(const JpegDecoder&) = delete;
  JpegDecoder& operator=(const JpegDecoder&) = delete;

  /// Reads up to the picture's size and colours. `bytes` must stay.
  bool open(std::string_view bytes);
  /// The way in which colours are packed; known once opened.
  J_COLOR_SPACE packed_colours() const { return decoder_.jpeg_color_space; }
  /// Whether CMYK is upside down, as Adobe's programs write it.
  bool has_adobe_mark() const { return decoder_.saw_Adobe_marker != 0; }
  bool odd() const { return errors_.odd; }

  /// Begins to unpack, with both sides divided by 1, 2, 4 or 8.
  bool start(unsigned divided_by);
  int width() const { return static_cast<int>(decoder_.output_width); }
  int height() const { return static_cast<int>(decoder_.output_height); }
  /// Bytes a pixel: 1 grey, 3 red, green and blue, 4 cyan, magenta, yellow and
  /// black.
  int channels() const { return decoder_.output_components; }
  bool read_row(std::span<std::uint8_t> row);
  /// After the last row: whether the file ends as it should.
  bool finish();

 private:
  JpegErrors errors_;
  jpeg_decompress_struct decoder_{};
};

/// Packs rows of 1 or 3 bytes a pixel, with a quality up to 100; empty where
/// there is no memory.
std::string encode_jpeg(std::span<const std::uint8_t> pixels, int width,
                        int height, int channels, int quality = 90);

}  // namespace sheaf
