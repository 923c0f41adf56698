#pragma once

#include <csetjmp>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <stdexcept>
#include <string>
#include <vector>

#include <jpeglib.h>
#include <png.h>
#include <zlib.h>

namespace sheaf::test {

// ---- PNG -------------------------------------------------------------------

struct PngKind {
  int depth = 8;
  int colour = PNG_COLOR_TYPE_RGB;
  int interlace = PNG_INTERLACE_NONE;
  std::vector<png_color> palette;
  std::vector<png_byte> palette_alpha;
  /// A colour that is see-through, where there is one.
  const png_color_16* see_through = nullptr;
};

/// A PNG file of rows that are packed as the kind says.
inline std::string make_png(int width, int height, const PngKind& kind,
                            std::vector<std::vector<png_byte>> rows) {
  std::string file;
  png_structp png =
      png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(png);
  if (setjmp(png_jmpbuf(png))) throw std::runtime_error("libpng cannot write");
  png_set_write_fn(
      png, &file,
      [](png_structp p, png_bytep data, png_size_t size) {
        static_cast<std::string*>(png_get_io_ptr(p))
            ->append(reinterpret_cast<char*>(data), size);
      },
      nullptr);
  png_set_IHDR(png, info, static_cast<png_uint_32>(width),
               static_cast<png_uint_32>(height), kind.depth, kind.colour,
               kind.interlace, PNG_COMPRESSION_TYPE_DEFAULT,
               PNG_FILTER_TYPE_DEFAULT);
  if (!kind.palette.empty()) {
    png_set_PLTE(png, info, kind.palette.data(),
                 static_cast<int>(kind.palette.size()));
  }
  if (!kind.palette_alpha.empty()) {
    png_set_tRNS(png, info, kind.palette_alpha.data(),
                 static_cast<int>(kind.palette_alpha.size()), nullptr);
  }
  if (kind.see_through) png_set_tRNS(png, info, nullptr, 0, kind.see_through);
  png_write_info(png, info);
  std::vector<png_bytep> pointers;
  for (std::vector<png_byte>& row : rows) pointers.push_back(row.data());
  png_write_image(png, pointers.data());
  png_write_end(png, info);
  png_destroy_write_struct(&png, &info);
  return file;
}

inline std::string big_endian(std::uint32_t value) {
  std::string bytes;
  for (int shift = 24; shift >= 0; shift -= 8) {
    bytes += static_cast<char>(value >> shift & 0xFF);
  }
  return bytes;
}

/// A part of a PNG file with the right checksum.
inline std::string png_chunk(const std::string& kind,
                             const std::string& contents) {
  const std::string checked = kind + contents;
  const auto sum = crc32(0, reinterpret_cast<const Bytef*>(checked.data()),
                         static_cast<uInt>(checked.size()));
  return big_endian(static_cast<std::uint32_t>(contents.size())) + checked +
         big_endian(static_cast<std::uint32_t>(sum));
}

inline const std::string kPngSignature("\x89PNG\r\n\x1A\n", 8);

inline std::string png_header(std::uint32_t width, std::uint32_t height,
                              int depth, int colour, int interlace = 0) {
  std::string contents = big_endian(width) + big_endian(height);
  for (const int value : {depth, colour, 0, 0, interlace}) {
    contents += static_cast<char>(value);
  }
  return png_chunk("IHDR", contents);
}

/// `bytes` packed as zlib does.
inline std::string deflated(const std::string& bytes, int level = 9) {
  std::string packed(compressBound(bytes.size()), '\0');
  uLongf size = packed.size();
  if (compress2(reinterpret_cast<Bytef*>(packed.data()), &size,
                reinterpret_cast<const Bytef*>(bytes.data()), bytes.size(),
                level) != Z_OK) {
    throw std::runtime_error("zlib cannot pack");
  }
  packed.resize(size);
  return packed;
}

// ---- JPEG ------------------------------------------------------------------

struct JpegKind {
  J_COLOR_SPACE colours = JCS_RGB;
  int channels = 3;
  bool progressive = false;
  int quality = 95;
};

/// A JPEG file; `pixel(x, y, c)` gives a channel's value.
template <typename Pixel>
std::string make_jpeg(int width, int height, const JpegKind& kind,
                      const Pixel& pixel) {
  jpeg_compress_struct encoder{};
  jpeg_error_mgr errors{};
  encoder.err = jpeg_std_error(&errors);  // ends the program on an error
  jpeg_create_compress(&encoder);
  unsigned char* buffer = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&encoder, &buffer, &size);
  encoder.image_width = static_cast<JDIMENSION>(width);
  encoder.image_height = static_cast<JDIMENSION>(height);
  encoder.input_components = kind.channels;
  encoder.in_color_space = kind.colours;
  jpeg_set_defaults(&encoder);
  jpeg_set_quality(&encoder, kind.quality, TRUE);
  if (kind.progressive) jpeg_simple_progression(&encoder);
  jpeg_start_compress(&encoder, TRUE);
  std::vector<JSAMPLE> row(static_cast<std::size_t>(width * kind.channels));
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      for (int c = 0; c < kind.channels; ++c) {
        row[static_cast<std::size_t>(x * kind.channels + c)] =
            static_cast<JSAMPLE>(pixel(x, y, c));
      }
    }
    JSAMPROW start = row.data();
    jpeg_write_scanlines(&encoder, &start, 1);
  }
  jpeg_finish_compress(&encoder);
  jpeg_destroy_compress(&encoder);
  std::string file(reinterpret_cast<char*>(buffer), size);
  std::free(buffer);
  return file;
}

/// A segment of a JPEG file.
inline std::string jpeg_segment(int marker, const std::string& contents) {
  const std::size_t length = contents.size() + 2;
  std::string bytes = "\xFF";
  bytes += static_cast<char>(marker);
  bytes += static_cast<char>(length >> 8);
  bytes += static_cast<char>(length & 0xFF);
  return bytes + contents;
}

/// What a camera writes to say how it was held.
inline std::string exif_segment(int orientation, bool little_endian = true) {
  const char o = static_cast<char>(orientation);
  std::string tiff = little_endian ? std::string(
                                         "II*\0\x08\0\0\0\x01\0"
                                         "\x12\x01\x03\0\x01\0\0\0",
                                         18) +
                                         o + std::string(7, '\0')
                                   : std::string(
                                         "MM\0*\0\0\0\x08\0\x01"
                                         "\x01\x12\0\x03\0\0\0\x01\0",
                                         19) +
                                         o + std::string(6, '\0');
  return jpeg_segment(0xE1, std::string("Exif\0\0", 6) + tiff);
}

/// The file with a segment put in right after its beginning.
inline std::string with_segment(const std::string& jpeg,
                                const std::string& segment) {
  return jpeg.substr(0, 2) + segment + jpeg.substr(2);
}

}  // namespace sheaf::test
