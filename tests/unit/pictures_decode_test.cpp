// A teacher's PNG and JPEG files of every kind that programs and cameras make.

#include <gtest/gtest.h>

#include <array>
#include <cstdlib>

#include "pictures/decode_image.h"
#include "pictures/jpeg_codec.h"
#include "pictures/jpeg_file.h"
#include "pictures/scale_down.h"
#include "pictures_made_images.h"

namespace sheaf {
namespace {

using namespace test;

using Row = std::vector<png_byte>;
using Rgb = std::array<int, 3>;

PixelImage decoded_png(const std::string& file) {
  std::string why;
  const auto picture = decode_image(file, "shed", why);
  EXPECT_TRUE(picture) << why;
  if (!picture) return {};
  EXPECT_EQ(picture->name, "shed");
  const auto& image = std::get<PixelImage>(picture->image);
  EXPECT_EQ(image.rgb.size(), static_cast<std::size_t>(3) *
                                  static_cast<std::size_t>(image.width) *
                                  static_cast<std::size_t>(image.height));
  EXPECT_TRUE(image.alpha.empty());
  return image;
}

Rgb pixel(const PixelImage& image, int x, int y) {
  const auto width = static_cast<std::size_t>(image.width);
  const std::size_t at =
      3 * (static_cast<std::size_t>(y) * width + static_cast<std::size_t>(x));
  return {image.rgb[at], image.rgb[at + 1], image.rgb[at + 2]};
}

void expect_near(const Rgb& found, const Rgb& expected, int within = 1) {
  for (std::size_t c = 0; c < 3; ++c) {
    EXPECT_NEAR(found[c], expected[c], within) << "channel " << c;
  }
}

// Each kind both plain and interlaced.
class Png : public testing::TestWithParam<int> {
 protected:
  PngKind kind(int depth, int colour) {
    PngKind made;
    made.depth = depth;
    made.colour = colour;
    made.interlace = GetParam();
    return made;
  }
};

INSTANTIATE_TEST_SUITE_P(Interlace, Png,
                         testing::Values(PNG_INTERLACE_NONE,
                                         PNG_INTERLACE_ADAM7));

TEST_P(Png, Colours) {
  const auto image = decoded_png(
      make_png(2, 2, kind(8, PNG_COLOR_TYPE_RGB),
               {Row{255, 0, 0, 0, 255, 0}, Row{0, 0, 255, 10, 20, 30}}));
  EXPECT_EQ(pixel(image, 0, 0), (Rgb{255, 0, 0}));
  EXPECT_EQ(pixel(image, 1, 0), (Rgb{0, 255, 0}));
  EXPECT_EQ(pixel(image, 0, 1), (Rgb{0, 0, 255}));
  EXPECT_EQ(pixel(image, 1, 1), (Rgb{10, 20, 30}));
}

TEST_P(Png, SixteenBits) {
  const auto image = decoded_png(
      make_png(2, 1, kind(16, PNG_COLOR_TYPE_RGB),
               {Row{0x80, 0, 0x40, 0x12, 0xFF, 0xFF, 0, 0, 1, 0, 0x7F, 0xFF}}));
  expect_near(pixel(image, 0, 0), {128, 64, 255});
  expect_near(pixel(image, 1, 0), {0, 1, 127});
}

TEST_P(Png, SixteenBitGrey) {
  const auto image = decoded_png(make_png(2, 1, kind(16, PNG_COLOR_TYPE_GRAY),
                                          {Row{0x80, 0, 0xFF, 0xFF}}));
  expect_near(pixel(image, 0, 0), {128, 128, 128});
  expect_near(pixel(image, 1, 0), {255, 255, 255});
}

TEST_P(Png, GreyOfFewBits) {
  for (const int depth : {1, 2, 4, 8}) {
    // Black, then white.
    const png_byte row = static_cast<png_byte>(0xFF >> depth);
    const auto image =
        decoded_png(make_png(2, 1, kind(depth, PNG_COLOR_TYPE_GRAY),
                             {depth == 8 ? Row{0, 255} : Row{row}}));
    EXPECT_EQ(pixel(image, 0, 0), (Rgb{0, 0, 0})) << depth;
    EXPECT_EQ(pixel(image, 1, 0), (Rgb{255, 255, 255})) << depth;
  }
}

TEST_P(Png, Palettes) {
  for (const int depth : {1, 2, 4, 8}) {
    PngKind made = kind(depth, PNG_COLOR_TYPE_PALETTE);
    made.palette = {{200, 100, 50}, {1, 2, 3}};
    const Row row = depth == 8
                        ? Row{0, 1}
                        : Row{static_cast<png_byte>(1 << (8 - 2 * depth))};
    const auto image = decoded_png(make_png(2, 1, made, {row}));
    EXPECT_EQ(pixel(image, 0, 0), (Rgb{200, 100, 50})) << depth;
    EXPECT_EQ(pixel(image, 1, 0), (Rgb{1, 2, 3})) << depth;
  }
}

TEST_P(Png, SeeThroughPartsBecomeWhite) {
  const auto rgba =
      decoded_png(make_png(3, 1, kind(8, PNG_COLOR_TYPE_RGB_ALPHA),
                           {Row{0, 0, 0, 0, 0, 0, 0, 255, 100, 0, 200, 128}}));
  EXPECT_EQ(pixel(rgba, 0, 0), (Rgb{255, 255, 255}));
  EXPECT_EQ(pixel(rgba, 1, 0), (Rgb{0, 0, 0}));
  expect_near(pixel(rgba, 2, 0), {177, 127, 227});

  const auto grey = decoded_png(make_png(
      2, 1, kind(8, PNG_COLOR_TYPE_GRAY_ALPHA), {Row{50, 0, 50, 255}}));
  EXPECT_EQ(pixel(grey, 0, 0), (Rgb{255, 255, 255}));
  EXPECT_EQ(pixel(grey, 1, 0), (Rgb{50, 50, 50}));

  const auto deep =
      decoded_png(make_png(1, 1, kind(16, PNG_COLOR_TYPE_RGB_ALPHA),
                           {Row{0x40, 0, 0x40, 0, 0x40, 0, 0xFF, 0xFF}}));
  expect_near(pixel(deep, 0, 0), {64, 64, 64});
}

TEST_P(Png, SeeThroughColours) {
  PngKind palette = kind(8, PNG_COLOR_TYPE_PALETTE);
  palette.palette = {{200, 100, 50}, {1, 2, 3}, {9, 9, 9}};
  palette.palette_alpha = {0, 255};
  const auto by_palette = decoded_png(make_png(3, 1, palette, {Row{0, 1, 2}}));
  EXPECT_EQ(pixel(by_palette, 0, 0), (Rgb{255, 255, 255}));
  EXPECT_EQ(pixel(by_palette, 1, 0), (Rgb{1, 2, 3}));
  EXPECT_EQ(pixel(by_palette, 2, 0), (Rgb{9, 9, 9}));

  png_color_16 pink{};
  pink.red = 255;
  pink.blue = 255;
  PngKind rgb = kind(8, PNG_COLOR_TYPE_RGB);
  rgb.see_through = &pink;
  const auto by_colour =
      decoded_png(make_png(2, 1, rgb, {Row{255, 0, 255, 254, 0, 255}}));
  EXPECT_EQ(pixel(by_colour, 0, 0), (Rgb{255, 255, 255}));
  EXPECT_EQ(pixel(by_colour, 1, 0), (Rgb{254, 0, 255}));
}

TEST_P(Png, LargeOnesAreMadeSmaller) {
  // Halves of black and white, twice as wide as needed and a bit more.
  const int width = 2 * kEnoughPixels + 200;
  Row row(static_cast<std::size_t>(width), 0);
  std::fill(row.begin() + width / 2, row.end(), 255);
  const auto image = decoded_png(make_png(
      width, 100, kind(8, PNG_COLOR_TYPE_GRAY), std::vector<Row>(100, row)));
  EXPECT_EQ(image.width, kEnoughPixels);
  EXPECT_EQ(image.height, 45);
  EXPECT_EQ(pixel(image, 10, 20), (Rgb{0, 0, 0}));
  EXPECT_EQ(pixel(image, kEnoughPixels - 10, 20), (Rgb{255, 255, 255}));
}

TEST(PngFile, TextsAndProfilesAreNotLookedAt) {
  const std::string file = make_png(1, 1, {}, std::vector<Row>{Row{1, 2, 3}});
  const std::size_t header_end = 8 + 25;
  // A packed text that is no packed text at all, and a profile.
  const std::string odd = file.substr(0, header_end) +
                          png_chunk("zTXt", "Comment" + std::string(40, '\0')) +
                          png_chunk("iCCP", "x") + file.substr(header_end);
  EXPECT_EQ(pixel(decoded_png(odd), 0, 0), (Rgb{1, 2, 3}));
}

TEST(PngFile, WhatFollowsTheEndDoesNoHarm) {
  const std::string file = make_png(1, 1, {}, std::vector<Row>{Row{1, 2, 3}});
  EXPECT_EQ(pixel(decoded_png(file + "and so on"), 0, 0), (Rgb{1, 2, 3}));
}

// ---- JPEG ------------------------------------------------------------------

JpegImage decoded_jpeg(const std::string& file) {
  std::string why;
  const auto picture = decode_image(file, "shed", why);
  EXPECT_TRUE(picture) << why;
  if (!picture) return {};
  return std::get<JpegImage>(picture->image);
}

// Unpacks what would be put into a PDF.
PixelImage seen(const JpegImage& image) {
  JpegDecoder decoder;
  EXPECT_TRUE(decoder.open(image.bytes));
  EXPECT_TRUE(decoder.start(1));
  EXPECT_EQ(decoder.width(), image.width);
  EXPECT_EQ(decoder.height(), image.height);
  EXPECT_EQ(decoder.channels(), image.components);
  PixelImage pixels{image.width, image.height, {}, {}};
  std::vector<std::uint8_t> row(
      static_cast<std::size_t>(image.width * image.components));
  for (int y = 0; y < image.height; ++y) {
    EXPECT_TRUE(decoder.read_row(row));
    for (std::size_t i = 0; i < row.size(); ++i) {
      pixels.rgb.insert(pixels.rgb.end(), image.components == 1 ? 3 : 1,
                        row[i]);
    }
  }
  EXPECT_TRUE(decoder.finish());
  return pixels;
}

// Left red, right green, the top half dark.
int quarters(int x, int y, int c, int width, int height) {
  const int light = y < height / 2 ? 100 : 250;
  if (c == 2) return 0;
  return (c == 0) == (x < width / 2) ? light : 0;
}

std::string quarters_jpeg(int width, int height, bool progressive = false) {
  JpegKind kind;
  kind.progressive = progressive;
  return make_jpeg(width, height, kind, [&](int x, int y, int c) {
    return quarters(x, y, c, width, height);
  });
}

TEST(Jpeg, OrdinaryOnesStayAsTheyArePacked) {
  for (const bool progressive : {false, true}) {
    const std::string file = quarters_jpeg(64, 32, progressive);
    const JpegImage image = decoded_jpeg(file);
    EXPECT_EQ(image.bytes, file);
    EXPECT_EQ(image.width, 64);
    EXPECT_EQ(image.height, 32);
    EXPECT_EQ(image.components, 3);
  }
}

TEST(Jpeg, Grey) {
  const std::string file = make_jpeg(40, 30, {JCS_GRAYSCALE, 1},
                                     [](int x, int, int) { return 6 * x; });
  const JpegImage image = decoded_jpeg(file);
  EXPECT_EQ(image.components, 1);
  EXPECT_EQ(image.bytes, file);
}

TEST(Jpeg, InksAreMixedToColours) {
  // libjpeg writes Adobe's mark and leaves the turning upside down to us.
  const std::string file =
      make_jpeg(32, 32, {JCS_CMYK, 4}, [](int x, int, int c) {
        constexpr int kLeft[] = {255, 0, 0, 255},
                      kRight[] = {200, 200, 200, 128};
        return x < 16 ? kLeft[c] : kRight[c];
      });
  const JpegImage image = decoded_jpeg(file);
  EXPECT_EQ(image.components, 3);
  const PixelImage pixels = seen(image);
  expect_near(pixel(pixels, 4, 16), {255, 0, 0}, 12);
  expect_near(pixel(pixels, 28, 16), {100, 100, 100}, 12);
}

TEST(Jpeg, RedGreenBlueWithoutAMarkIsPackedAnew) {
  // Readers of PDF take three bare components for luminance and chrominance.
  jpeg_compress_struct encoder{};
  jpeg_error_mgr errors{};
  encoder.err = jpeg_std_error(&errors);
  jpeg_create_compress(&encoder);
  unsigned char* buffer = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&encoder, &buffer, &size);
  encoder.image_width = encoder.image_height = 16;
  encoder.input_components = 3;
  encoder.in_color_space = JCS_RGB;
  jpeg_set_defaults(&encoder);
  jpeg_set_colorspace(&encoder, JCS_RGB);
  encoder.write_Adobe_marker = FALSE;
  jpeg_start_compress(&encoder, TRUE);
  std::vector<JSAMPLE> row;
  for (int x = 0; x < 16; ++x) row.insert(row.end(), {200, 40, 90});
  JSAMPROW start = row.data();
  for (int y = 0; y < 16; ++y) jpeg_write_scanlines(&encoder, &start, 1);
  jpeg_finish_compress(&encoder);
  jpeg_destroy_compress(&encoder);
  const std::string file(reinterpret_cast<char*>(buffer), size);
  std::free(buffer);
  const JpegImage image = decoded_jpeg(file);
  EXPECT_NE(image.bytes, file);
  expect_near(pixel(seen(image), 8, 8), {200, 40, 90}, 8);
}

TEST(Jpeg, LargeOnesAreMadeSmaller) {
  for (const int width : {2000, 4000}) {
    const JpegImage image = decoded_jpeg(quarters_jpeg(width, width / 2));
    EXPECT_EQ(image.width, kEnoughPixels);
    EXPECT_NEAR(image.height, kEnoughPixels / 2.0, 1);
    const PixelImage pixels = seen(image);
    expect_near(pixel(pixels, 100, 100), {100, 0, 0}, 10);
    expect_near(pixel(pixels, 800, 100), {0, 100, 0}, 10);
    expect_near(pixel(pixels, 100, 400), {250, 0, 0}, 10);
    expect_near(pixel(pixels, 800, 400), {0, 250, 0}, 10);
  }
}

// Exif 2.32: orientation n says where the 0th row and the 0th column are.
TEST(Jpeg, IsTurnedUpright) {
  struct Case {
    int orientation;
    // The corners as they come out, from the top left, row by row: a dark red,
    // b dark green, c light red, d light green.
    const char* corners;
  };
  const std::string upright = quarters_jpeg(64, 32);
  for (const auto& [orientation, corners] :
       {Case{2, "badc"}, Case{3, "dcba"}, Case{4, "cdab"}, Case{5, "acbd"},
        Case{6, "cadb"}, Case{7, "dbca"}, Case{8, "bdac"}}) {
    for (const bool little_endian : {true, false}) {
      const JpegImage image = decoded_jpeg(
          with_segment(upright, exif_segment(orientation, little_endian)));
      EXPECT_EQ(image.width, orientation < 5 ? 64 : 32);
      EXPECT_EQ(image.height, orientation < 5 ? 32 : 64);
      const PixelImage pixels = seen(image);
      for (int i = 0; i < 4; ++i) {
        const Rgb expected = corners[i] == 'a'   ? Rgb{100, 0, 0}
                             : corners[i] == 'b' ? Rgb{0, 100, 0}
                             : corners[i] == 'c' ? Rgb{250, 0, 0}
                                                 : Rgb{0, 250, 0};
        expect_near(pixel(pixels, i % 2 ? image.width - 4 : 3,
                          i / 2 ? image.height - 4 : 3),
                    expected, 12);
      }
    }
  }
}

TEST(Jpeg, OrientationsThatMakeNoSenseAreUpright) {
  const std::string file = quarters_jpeg(64, 32);
  for (const int orientation : {0, 1, 9, 255}) {
    EXPECT_EQ(decoded_jpeg(with_segment(file, exif_segment(orientation))).bytes,
              file);
  }
}

// Nothing that a camera wrote about place and time goes into a packet.
TEST(Jpeg, WhatACameraWroteIsLeftOut) {
  const std::string file = quarters_jpeg(64, 32);
  const std::string told = with_segment(
      file, exif_segment(1) + jpeg_segment(0xE1, "http://place") +
                jpeg_segment(0xE2, "ICC_PROFILE") + jpeg_segment(0xED, "town") +
                jpeg_segment(0xFE, "by me"));
  EXPECT_EQ(decoded_jpeg(told).bytes, file);
  EXPECT_EQ(decoded_jpeg(told + "a second picture").bytes, file);
}

TEST(JpegFile, SmallPicturesInsideTheHeadAreLeftOut) {
  std::string jfif("JFIF\0\x01\x02\x01\0\x48\0\x48\x02\x01", 14);
  jfif += "secret";
  const std::string file =
      "\xFF\xD8" + jpeg_segment(0xE0, jfif) +
      quarters_jpeg(16, 16).substr(2 + 18);  // without its own head
  std::string why;
  const auto read = read_jpeg_file(file, why);
  ASSERT_TRUE(read) << why;
  EXPECT_EQ(read->bare.find("secret"), std::string::npos);
  EXPECT_EQ(read->width, 16);
}

// ---- making smaller --------------------------------------------------------

TEST(ScaleDown, TakesTheMeanOfEachArea) {
  ScaleDown halves(4, 2, 1, 2);
  halves.add_row(std::vector<std::uint8_t>{0, 10, 100, 200});
  halves.add_row(std::vector<std::uint8_t>{20, 30, 100, 200});
  EXPECT_EQ(halves.width(), 2);
  EXPECT_EQ(halves.height(), 1);
  EXPECT_EQ(halves.take(), (std::vector<std::uint8_t>{15, 150}));
}

TEST(ScaleDown, SharesPixelsThatLieAcross) {
  ScaleDown thirds(3, 3, 1, 2);
  for (const auto& row :
       {std::vector<std::uint8_t>{90, 0, 90}, {0, 0, 0}, {90, 0, 0}}) {
    thirds.add_row(row);
  }
  // Each new pixel covers 1.5 by 1.5 old ones: 90 / 2.25.
  EXPECT_EQ(thirds.take(), (std::vector<std::uint8_t>{40, 40, 40, 0}));
}

TEST(ScaleDown, LeavesSmallOnesAlone) {
  ScaleDown same(2, 2, 3, 2);
  const std::vector<std::uint8_t> row{1, 2, 3, 4, 5, 6};
  same.add_row(row);
  same.add_row(row);
  EXPECT_EQ(same.take(),
            (std::vector<std::uint8_t>{1, 2, 3, 4, 5, 6, 1, 2, 3, 4, 5, 6}));
}

TEST(ScaleDown, KeepsAtLeastOneRow) {
  ScaleDown strip(5000, 1, 1, 100);
  strip.add_row(std::vector<std::uint8_t>(5000, 7));
  EXPECT_EQ(strip.height(), 1);
  EXPECT_EQ(strip.take(), std::vector<std::uint8_t>(100, 7));
}

TEST(DecodeImage, NamesOtherKindsOfFiles) {
  struct Case {
    std::string bytes;
    const char* why;
  };
  for (const auto& [bytes, expected] :
       {Case{"", "it is empty"},
        Case{"GIF89a....", "it is a GIF picture, not a PNG or JPEG picture"},
        Case{"RIFF....WEBPVP8 ",
             "it is a WebP picture, not a PNG or JPEG picture"},
        Case{std::string("\0\0\0\x18", 4) + "ftypheic",
             "it is a HEIC photo, not a PNG or JPEG picture"},
        Case{"%PDF-1.7", "it is a PDF file, not a PNG or JPEG picture"},
        Case{"<svg xmlns=", "it is an SVG drawing, not a PNG or JPEG picture"},
        Case{"A letter.", "it is not a PNG or JPEG picture"}}) {
    std::string why;
    EXPECT_FALSE(decode_image(bytes, "shed", why));
    EXPECT_EQ(why, expected);
  }
}

}  // namespace
}  // namespace sheaf
