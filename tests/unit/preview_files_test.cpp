// Pictures on pages, contact sheets and PNG files.

#include <gtest/gtest.h>

#include <png.h>

#include "base/error.h"
#include "pictures/decode_image.h"
#include "pictures/jpeg_codec.h"
#include "preview/own_png.h"
#include "preview/preview.h"

namespace sheaf {
namespace {

using namespace literals;

int at(const PreviewImage& image, int x, int y, int channel = 0) {
  const int channels = image.colour ? 3 : 1;
  return image.pixels[static_cast<std::size_t>(
      (y * image.width + x) * channels + channel)];
}

Page page_with(const Picture& picture, Rect box) {
  Page page;
  page.size = {20_pt, 20_pt};
  page.marks = {PictureMark{&picture, box}};
  return page;
}

// Two by two: black, white; white, black.
PixelImage chequered() {
  PixelImage image{2, 2, {}, {}};
  for (const int grey : {0, 255, 255, 0}) {
    image.rgb.insert(image.rgb.end(), 3, static_cast<std::uint8_t>(grey));
  }
  return image;
}

// It is wider than high, so it stands in the middle of its box.
TEST(PreviewPictures, OutlinesAreFittedIntoTheirBox) {
  using enum PathStep::Kind;
  LineDrawing drawing;
  drawing.box = {100_pt, 50_pt};
  drawing.path = {{move, {0_pt, 0_pt}, {}, {}},
                  {line, {100_pt, 0_pt}, {}, {}},
                  {line, {100_pt, 50_pt}, {}, {}},
                  {line, {0_pt, 50_pt}, {}, {}},
                  {close, {}, {}, {}}};
  const Picture picture{"bar", drawing};
  const auto image =
      draw_page(page_with(picture, {4_pt, 4_pt, 12_pt, 12_pt}), {.dpi = 72});
  for (int y = 0; y < 20; ++y) {
    for (int x = 0; x < 20; ++x) {
      const bool inside = x >= 4 && x < 16 && y >= 7 && y < 13;
      EXPECT_EQ(at(image, x, y), inside ? 0 : 255) << x << ", " << y;
    }
  }
}

TEST(PreviewPictures, PixelsBecomeMeansWhereTheyAreMany) {
  PixelImage fine{64, 64, {}, {}};
  for (int y = 0; y < 64; ++y) {
    for (int x = 0; x < 64; ++x) {
      fine.rgb.insert(fine.rgb.end(), 3,
                      static_cast<std::uint8_t>((x + y) % 2 * 200));
    }
  }
  const Picture picture{"grey", fine};
  const auto image =
      draw_page(page_with(picture, {2_pt, 2_pt, 16_pt, 16_pt}), {.dpi = 72});
  EXPECT_FALSE(image.colour);
  EXPECT_EQ(at(image, 1, 10), 255);
  for (int i = 2; i < 18; ++i) EXPECT_NEAR(at(image, i, 10), 100, 1) << i;
  EXPECT_EQ(at(image, 18, 10), 255);
}

TEST(PreviewPictures, FewPixelsAreMadeLarge) {
  const Picture picture{"squares", chequered()};
  const auto image =
      draw_page(page_with(picture, {2_pt, 2_pt, 16_pt, 16_pt}), {.dpi = 72});
  EXPECT_LT(at(image, 3, 3), 40);
  EXPECT_GT(at(image, 16, 3), 215);
  EXPECT_GT(at(image, 3, 16), 215);
  EXPECT_LT(at(image, 16, 16), 40);
  EXPECT_EQ(at(image, 1, 3), 255);
}

TEST(PreviewPictures, ThroughAlphaThePaperShows) {
  PixelImage half = chequered();
  half.rgb.assign(12, 0);
  half.alpha = {0, 0, 255, 255};  // the lower half
  const Picture picture{"lower", half};
  const auto image =
      draw_page(page_with(picture, {0_pt, 0_pt, 20_pt, 20_pt}), {.dpi = 72});
  EXPECT_EQ(at(image, 10, 1), 255);
  EXPECT_EQ(at(image, 10, 18), 0);
}

TEST(PreviewPictures, ColourOnlyWhereAPictureHasIt) {
  PixelImage red = chequered();
  for (std::size_t i = 0; i < 12; ++i) red.rgb[i] = i % 3 == 0 ? 255 : 0;
  const Picture picture{"red", red};
  const Page page = page_with(picture, {5_pt, 5_pt, 10_pt, 10_pt});
  const auto image = draw_page(page, {.dpi = 72});
  ASSERT_TRUE(image.colour);
  EXPECT_EQ(image.pixels.size(), 1200U);
  EXPECT_EQ(at(image, 10, 10, 0), 255);
  EXPECT_EQ(at(image, 10, 10, 1), 0);
  EXPECT_EQ(at(image, 2, 2, 1), 255);
  const auto grey =
      draw_page(page, {.dpi = 72, .colours = PreviewColours::grey});
  ASSERT_FALSE(grey.colour);
  EXPECT_EQ(at(grey, 10, 10), 76);  // 0.299 of 255
}

TEST(PreviewPictures, GreyWhereThePageSaysSo) {
  PixelImage red = chequered();
  for (std::size_t i = 0; i < 12; ++i) red.rgb[i] = i % 3 == 0 ? 255 : 0;
  const Picture picture{"red", red};
  Page page = page_with(picture, {5_pt, 5_pt, 10_pt, 10_pt});
  std::get<PictureMark>(page.marks[0]).grey = true;
  const auto image = draw_page(page, {.dpi = 72});
  EXPECT_FALSE(image.colour);
  EXPECT_EQ(at(image, 10, 10), 76);  // 0.299 of 255
}

TEST(PreviewPictures, PhotographsAreUnpacked) {
  const std::vector<std::uint8_t> pixels(16 * 16, 90);
  const Picture picture{"photo",
                        JpegImage{16, 16, 1, encode_jpeg(pixels, 16, 16, 1)}};
  const auto image =
      draw_page(page_with(picture, {5_pt, 5_pt, 10_pt, 10_pt}), {.dpi = 72});
  EXPECT_FALSE(image.colour);
  EXPECT_NEAR(at(image, 10, 10), 90, 2);
  EXPECT_EQ(at(image, 4, 10), 255);
}

Document pages(int count) {
  Document document;
  for (int i = 0; i < count; ++i) {
    Page page;
    page.size = {612_pt, 792_pt};
    document.pages.push_back(page);
  }
  return document;
}

TEST(ContactSheet, HasAllPagesInRows) {
  const auto image = contact_sheet(pages(5), {.dpi = 20}, 3);
  // 3 pages of 170 by 220 pixels across, with gaps of 5.
  EXPECT_EQ(image.width, 3 * 170 + 4 * 5);
  EXPECT_EQ(image.height, 2 * 220 + 3 * 5);
  EXPECT_EQ(at(image, 2, 2), 208);
  EXPECT_EQ(at(image, 90, 100), 255);
  EXPECT_EQ(at(image, 177, 100), 208);
  EXPECT_EQ(at(image, 440, 330), 208);  // no sixth page
  const auto strip = contact_sheet(pages(5), {.dpi = 20}, 5);
  EXPECT_EQ(strip.height, 220 + 2 * 5);
}

TEST(ContactSheet, PagesInColourStandBesideGreyOnes) {
  PixelImage red = chequered();
  for (std::size_t i = 0; i < 12; ++i) red.rgb[i] = i % 3 == 0 ? 255 : 0;
  const Picture picture{"red", red};
  Document document = pages(3);
  document.pages[1].marks = {
      PictureMark{&picture, {100_pt, 100_pt, 400_pt, 400_pt}}};
  const auto image = contact_sheet(document, {.dpi = 20}, 3);
  ASSERT_TRUE(image.colour);
  EXPECT_EQ(at(image, 90, 100, 1), 255);
  EXPECT_EQ(at(image, 270, 90, 0), 255);
  EXPECT_EQ(at(image, 270, 90, 1), 0);
  EXPECT_EQ(at(image, 440, 100, 1), 255);
}

TEST(ContactSheet, ManyPagesAreDrawnSmaller) {
  for (const int columns : {0, 300}) {
    const auto image = contact_sheet(pages(300), {.dpi = 600}, columns);
    EXPECT_LE(std::int64_t{image.width} * image.height, kMostSheetPixels);
    EXPECT_LE(image.width, kMostSheetSide);
    EXPECT_GT(image.width, kMostSheetSide / 5);
  }
  EXPECT_THROW(contact_sheet(pages(0), {.dpi = 96}), MachineError);
  EXPECT_THROW(contact_sheet(pages(60'000), {.dpi = 96}), MachineError);
}

bool is_own(const std::string& bytes) {
  return is_own_png(bytes.size(), [&](std::uint64_t begin, std::size_t most) {
    return begin < bytes.size() ? bytes.substr(begin, most) : std::string();
  });
}

PreviewImage sample(bool colour, int dpi) {
  PreviewImage image;
  image.width = 30;
  image.height = 20;
  image.colour = colour;
  image.dpi = dpi;
  for (int i = 0; i < 600 * (colour ? 3 : 1); ++i) {
    image.pixels.push_back(static_cast<std::uint8_t>(i * 7));
  }
  return image;
}

// As libpng reads it, which checks every part.
TEST(PngFile, HoldsThePixels) {
  for (const bool colour : {false, true}) {
    const PreviewImage image = sample(colour, 96);
    const std::string bytes = write_png(image);
    png_image read{};
    read.version = PNG_IMAGE_VERSION;
    ASSERT_TRUE(
        png_image_begin_read_from_memory(&read, bytes.data(), bytes.size()));
    EXPECT_EQ(read.width, 30U);
    EXPECT_EQ(read.height, 20U);
    read.format = colour ? PNG_FORMAT_RGB : PNG_FORMAT_GRAY;
    std::vector<std::uint8_t> pixels(PNG_IMAGE_SIZE(read));
    ASSERT_TRUE(
        png_image_finish_read(&read, nullptr, pixels.data(), 0, nullptr));
    EXPECT_EQ(read.warning_or_error, 0U) << read.message;
    EXPECT_EQ(pixels, image.pixels);
  }
}

TEST(PngFile, IsKnownAgain) {
  for (const int dpi : {0, 96}) {
    EXPECT_TRUE(is_own(write_png(sample(false, dpi))));
    EXPECT_TRUE(is_own(write_png(sample(true, dpi))));
  }
}

std::string chunk(const std::string& kind, const std::string& contents) {
  return std::string(3, '\0') + static_cast<char>(contents.size()) + kind +
         contents + "sum.";
}

TEST(PngFile, OfOthersIsNotTaken) {
  const std::string own = write_png(sample(false, 96));
  EXPECT_FALSE(is_own(""));
  EXPECT_FALSE(is_own("pattern: sh\n"));
  EXPECT_FALSE(is_own(own.substr(0, own.size() - 1)));
  EXPECT_FALSE(is_own(own.substr(0, own.size() / 2)));
  EXPECT_FALSE(is_own(own + "more"));
  // Without the note on who made it, or with another.
  const std::size_t note = own.find("tEXt") - 4;
  const std::size_t length = 12 + 14;
  std::string bare = own;
  bare.erase(note, length);
  EXPECT_FALSE(is_own(bare));
  std::string others = own;
  others.replace(others.find("Sheaf"), 5, "Gnome");
  EXPECT_FALSE(is_own(others));
  // A program that drew on it says so, or when.
  for (const std::string& added :
       {chunk("tIME", "1234567"), chunk("tEXt", std::string("date\0x", 6)),
        own.substr(note, length)}) {
    std::string drawn_on = own;
    drawn_on.insert(note, added);
    EXPECT_FALSE(is_own(drawn_on));
  }
  // A length that leads out of the file.
  std::string wild = own;
  wild.replace(note, 4, "\xFF\xFF\xFF\xFF");
  EXPECT_FALSE(is_own(wild));
}

}  // namespace
}  // namespace sheaf
