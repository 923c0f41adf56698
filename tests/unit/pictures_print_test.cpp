// What is put into a file of a teacher's picture: no finer than it is printed,
// and grey where that is asked for.

#include <gtest/gtest.h>

#include "base/error.h"
#include "pictures/decode_image.h"
#include "pictures/jpeg_codec.h"
#include "pictures/jpeg_image.h"
#include "pictures/pixels.h"
#include "pictures/printed_picture.h"
#include "pictures_made_images.h"

namespace sheaf {
namespace {

using namespace test;
using namespace literals;
using Bytes = std::vector<std::uint8_t>;

constexpr Length kInch = 72_pt;

// Grey pixels as they are held, three bytes each.
PixelImage grey_image(int width, int height, const Bytes& pixels) {
  PixelImage image{width, height, {}, {}};
  for (const std::uint8_t value : pixels) {
    image.rgb.insert(image.rgb.end(), 3, value);
  }
  return image;
}

// One of the three bytes of each pixel.
Bytes channel(const PixelImage& image, std::size_t c = 0) {
  Bytes values;
  for (std::size_t i = c; i < image.rgb.size(); i += 3) {
    values.push_back(image.rgb[i]);
  }
  return values;
}

TEST(ScaledDown, ChequersBecomeTheirMean) {
  // Squares of one dot run together, squares of two dots stay.
  const Bytes fine = {0, 255, 0, 255, 255, 0, 255, 0,
                      0, 255, 0, 255, 255, 0, 255, 0};
  const Bytes coarse = {0,   0,   255, 255, 0,   0,   255, 255,
                        255, 255, 0,   0,   255, 255, 0,   0};
  const PixelImage ground = scaled_down(grey_image(4, 4, fine), 2);
  EXPECT_EQ(ground.width, 2);
  EXPECT_EQ(ground.height, 2);
  EXPECT_EQ(channel(ground), (Bytes{128, 128, 128, 128}));  // 127.5
  EXPECT_EQ(channel(scaled_down(grey_image(4, 4, coarse), 2)),
            (Bytes{0, 255, 255, 0}));
}

TEST(ScaledDown, OddRatios) {
  // Five dots on three: each new one covers 5/3 old ones, so the first is
  // (0 + 2/3 * 60) / (5/3) = 24, the second (1/3 * 60 + 120 + 1/3 * 180) /
  // (5/3) = 120, the third (2/3 * 180 + 240) / (5/3) = 216.
  const PixelImage row =
      scaled_down(grey_image(5, 1, {0, 60, 120, 180, 240}), 3);
  EXPECT_EQ(row.height, 1);
  EXPECT_EQ(channel(row), (Bytes{24, 120, 216}));
}

TEST(ScaledDown, KeepsSmallOnesAndColours) {
  PixelImage image{2, 1, {255, 0, 0, 0, 0, 200}, {}};
  EXPECT_EQ(scaled_down(image, 2).rgb, image.rgb);
  EXPECT_EQ(scaled_down(image, 9).rgb, image.rgb);
  EXPECT_EQ(scaled_down(image, 1).rgb, (Bytes{128, 0, 100}));
}

TEST(ScaledDown, ColourCountsByHowMuchItHides) {
  // Black beside a white that cannot be seen: half as strong, but no paler.
  PixelImage image = grey_image(4, 1, {0, 255, 90, 90});
  image.alpha = {255, 0, 255, 255};
  const PixelImage half = scaled_down(image, 2);
  EXPECT_EQ(channel(half), (Bytes{0, 90}));
  EXPECT_EQ(half.alpha, (Bytes{128, 255}));
  // Three parts of 200 and one of 100: (200 * 192 + 100 * 64) / 256.
  PixelImage mixed = grey_image(2, 1, {200, 100});
  mixed.alpha = {192, 64};
  EXPECT_NEAR(channel(scaled_down(mixed, 1))[0], 175, 1);
  EXPECT_EQ(scaled_down(mixed, 1).alpha, (Bytes{128}));
}

// Weights of ITU-R BT.601: 0.299, 0.587, 0.114.
TEST(TurnedGrey, WeighsColoursAsTheEyeDoes) {
  EXPECT_EQ(grey_of(255, 0, 0), 76);     // 76.245
  EXPECT_EQ(grey_of(0, 255, 0), 150);    // 149.685
  EXPECT_EQ(grey_of(0, 0, 255), 29);     // 29.07
  EXPECT_EQ(grey_of(255, 255, 0), 226);  // 225.93
  EXPECT_EQ(grey_of(255, 255, 255), 255);
  EXPECT_EQ(grey_of(90, 90, 90), 90);
  PixelImage image{2, 1, {255, 0, 0, 10, 20, 30}, {7, 255}};
  const PixelImage grey = turned_grey(image);
  EXPECT_EQ(grey.rgb, (Bytes{76, 76, 76, 18, 18, 18}));  // 18.15
  EXPECT_EQ(grey.alpha, image.alpha);
}

// A picture on 1 inch needs 300 dots.
TEST(PrintedPicture, HasThreeHundredDotsAnInch) {
  EXPECT_EQ(printed_pixels(kInch), 300);
  EXPECT_EQ(printed_pixels(40_mm), 472);  // 472.4
  EXPECT_EQ(printed_pixels(Length()), 1);
  const Picture fine{"shed", PixelImage{600, 450, Bytes(600 * 450 * 3, 9), {}}};
  const auto made = printed_picture(fine, kInch, false);
  ASSERT_TRUE(made);
  EXPECT_EQ(made->name, "shed");
  EXPECT_EQ(std::get<PixelImage>(made->image).width, 300);
  EXPECT_EQ(std::get<PixelImage>(made->image).height, 225);
  EXPECT_FALSE(printed_picture(fine, 2 * kInch, false));
  EXPECT_FALSE(printed_picture(fine, 3 * kInch, true)) << "it has no colours";
  // Nearly as fine as needed.
  EXPECT_FALSE(printed_picture(
      {"shed", PixelImage{308, 1, Bytes(308 * 3, 9), {}}}, kInch, false));
}

TEST(PrintedPicture, DrawingsStay) {
  EXPECT_FALSE(printed_picture({"shed", LineDrawing{}}, kInch, true));
}

// Red above, blue below.
JpegImage two_colours(int width, int height) {
  const std::string file = make_jpeg(width, height, {}, [&](int, int y, int c) {
    return c == (y < height / 2 ? 0 : 2) ? 255 : 0;
  });
  return {width, height, 3, file};
}

TEST(PrintedPicture, JpegStaysJpeg) {
  const Picture fine{"shed", two_colours(1200, 800)};
  EXPECT_FALSE(printed_picture(fine, 4 * kInch, false));
  const auto made = printed_picture(fine, kInch, false);
  ASSERT_TRUE(made);
  const auto& jpeg = std::get<JpegImage>(made->image);
  EXPECT_EQ(jpeg.width, 300);
  EXPECT_EQ(jpeg.height, 200);
  EXPECT_EQ(jpeg.components, 3);
  const auto pixels = pixels_of(jpeg);
  ASSERT_TRUE(pixels);
  ASSERT_EQ(pixels->width, 300);
  EXPECT_NEAR(channel(*pixels, 0)[50 * 300 + 150], 255, 4);
  EXPECT_NEAR(channel(*pixels, 2)[150 * 300 + 150], 255, 4);
  EXPECT_NEAR(channel(*pixels, 0)[150 * 300 + 150], 0, 4);
  // The same bytes each time.
  EXPECT_EQ(
      jpeg.bytes,
      std::get<JpegImage>(printed_picture(fine, kInch, false)->image).bytes);
}

TEST(PrintedPicture, GreyJpegHasOneByteAPixel) {
  const auto made = printed_picture({"shed", two_colours(64, 64)}, kInch, true);
  ASSERT_TRUE(made);
  const auto& jpeg = std::get<JpegImage>(made->image);
  EXPECT_EQ(jpeg.width, 64);
  EXPECT_EQ(jpeg.components, 1);
  const auto pixels = pixels_of(jpeg);
  ASSERT_TRUE(pixels);
  EXPECT_NEAR(channel(*pixels)[16 * 64 + 32], 76, 2);
  EXPECT_NEAR(channel(*pixels)[48 * 64 + 32], 29, 2);
  EXPECT_FALSE(printed_picture(*made, kInch, true)) << "it is grey already";
}

TEST(PrintedPicture, DamageIsSaid) {
  const Picture broken{"shed", JpegImage{4000, 3000, 3, "no picture"}};
  EXPECT_THROW(printed_picture(broken, kInch, false), MachineError);
}

// The largest picture that is read, on a stamp: what is held is a few rows and
// the result.
TEST(PrintedPicture, LargestFilesAreMadeSmall) {
  const int side = 4096;
  std::string why;
  const auto read = decode_image(
      make_jpeg(side, side, {.quality = 30},
                [](int x, int y, int) { return (x / 64 + y / 64) % 2 * 255; }),
      "shed", why);
  ASSERT_TRUE(read) << why;
  const auto made = printed_picture(*read, 5_mm, false);
  ASSERT_TRUE(made);
  EXPECT_EQ(std::get<JpegImage>(made->image).width, 59);
  EXPECT_LT(std::get<JpegImage>(made->image).bytes.size(), 4000U);
}

}  // namespace
}  // namespace sheaf
