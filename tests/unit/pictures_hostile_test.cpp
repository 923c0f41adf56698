// Picture files that are broken or meant to do harm. Each must be refused with
// a reason, at once and without much memory.

#include <gtest/gtest.h>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <ctime>

#include "pictures/decode_image.h"
#include "pictures_made_images.h"

namespace sheaf {
namespace {

using namespace test;

struct Hostile {
  const char* what;
  std::string bytes;
  /// Part of the reason.
  const char* why;
};

std::string grey_rows(std::size_t width, std::size_t height) {
  return std::string((width + 1) * height, '\0');
}

std::string png_of(const std::string& chunks) { return kPngSignature + chunks; }

std::string small_png() {
  return png_of(png_header(4, 4, 8, 0) +
                png_chunk("IDAT", deflated(grey_rows(4, 4))) +
                png_chunk("IEND", ""));
}

std::vector<Hostile> hostile_pngs() {
  const std::string end = png_chunk("IEND", "");
  const std::string rows = png_chunk("IDAT", deflated(grey_rows(4, 4)));
  const std::string whole = small_png();
  std::string wrong_sum = whole;
  wrong_sum[kPngSignature.size() + 25 + 12] ^= 1;
  std::string wrong_header_sum = whole;
  wrong_header_sum[kPngSignature.size() + 24] ^= 1;
  // A gigabyte of nothing, packed into a megabyte: more than the header says.
  const std::string packed_twice =
      deflated(std::string(std::size_t{64} << 20, '\0'));
  return {
      {"signature alone", kPngSignature, "cut short"},
      {"no picture", png_of(png_header(4, 4, 8, 0) + end), "damaged"},
      {"no header", png_of(rows + end), "damaged"},
      {"two headers",
       png_of(png_header(4, 4, 8, 0) + png_header(9, 9, 8, 0) + rows + end),
       "damaged"},
      {"header of odd length",
       png_of(png_chunk("IHDR", std::string("\0\0\0\x04", 4)) + rows + end),
       "damaged"},
      {"no width", png_of(png_header(0, 4, 8, 0) + rows + end), "no size"},
      {"no height", png_of(png_header(4, 0, 8, 0) + rows + end), "no size"},
      {"65,536 squared", png_of(png_header(65536, 65536, 8, 2) + rows + end),
       "too large"},
      {"largest of all",
       png_of(png_header(0x7FFFFFFF, 0x7FFFFFFF, 16, 6) + rows + end),
       "too large"},
      {"size with the sign bit",
       png_of(png_header(0xFFFFFFFF, 1, 8, 0) + rows + end), "too large"},
      {"one very long row", png_of(png_header(100'000, 1, 8, 0) + rows + end),
       "too large"},
      {"large, and nothing in it",
       png_of(png_header(4096, 4096, 8, 6) + rows + end), "damaged"},
      {"large, 16 bits, interlaced, and nothing in it",
       png_of(png_header(4096, 4096, 16, 6, 1) + rows + end), "damaged"},
      {"unknown colours", png_of(png_header(4, 4, 8, 5) + rows + end),
       "damaged"},
      {"three bits", png_of(png_header(4, 4, 3, 0) + rows + end), "damaged"},
      {"unknown interlacing", png_of(png_header(4, 4, 8, 0, 7) + rows + end),
       "damaged"},
      {"palette that is missing", png_of(png_header(4, 4, 8, 3) + rows + end),
       "damaged"},
      {"palette of odd length",
       png_of(png_header(4, 4, 8, 3) + png_chunk("PLTE", "abcd") + rows + end),
       "damaged"},
      {"palette of 300 colours",
       png_of(png_header(4, 4, 8, 3) +
              png_chunk("PLTE", std::string(900, 'a')) + rows + end),
       "damaged"},
      {"part that must be understood and is not",
       png_of(png_header(4, 4, 8, 0) + png_chunk("EVIL", "x") + rows + end),
       "damaged"},
      {"part that says it is 2 GiB long",
       png_of(png_header(4, 4, 8, 0) + big_endian(0x7FFFFFFF) + "IDAT" + "x"),
       "cut short"},
      {"part that says it is 4 GiB long",
       png_of(png_header(4, 4, 8, 0) + big_endian(0xFFFFFFFF) + "tEXt" + "x"),
       "cut short"},
      {"cut in the middle", whole.substr(0, whole.size() - 20), "cut short"},
      {"no end", whole.substr(0, whole.size() - 12), "cut short"},
      {"wrong checksum", wrong_sum, "damaged"},
      {"wrong checksum in the header", wrong_header_sum, "damaged"},
      {"rows that end early",
       png_of(png_header(4, 4, 8, 0) +
              png_chunk("IDAT", deflated(grey_rows(4, 2))) + end),
       "damaged"},
      {"rows that are not packed",
       png_of(png_header(4, 4, 8, 0) + png_chunk("IDAT", grey_rows(4, 4)) +
              end),
       "damaged"},
      {"row of an unknown filter",
       png_of(png_header(4, 1, 8, 0) +
              png_chunk("IDAT", deflated("\x09"
                                         "abcd")) +
              end),
       "damaged"},
      {"bomb behind an impossible size",
       png_of(png_header(30'000, 30'000, 8, 0) +
              png_chunk("IDAT", packed_twice) + end),
       "too large"},
      {"empty parts without end, then nothing",
       [] {
         std::string many = png_of(png_header(4, 4, 8, 0));
         const std::string empty = png_chunk("IDAT", "");
         for (int i = 0; i < 100'000; ++i) many += empty;
         return many;
       }(),
       "cut short"},
  };
}

std::string small_jpeg(bool progressive = false) {
  JpegKind kind;
  kind.progressive = progressive;
  return make_jpeg(48, 48, kind,
                   [](int x, int y, int c) { return (x * y * (c + 1)) % 256; });
}

// Where the frame's segment begins in one of our own files.
std::size_t frame_of(const std::string& jpeg) {
  for (const char* mark : {"\xFF\xC0", "\xFF\xC2"}) {
    const std::size_t at = jpeg.find(mark);
    if (at != std::string::npos) return at;
  }
  throw std::runtime_error("no frame");
}

std::string with_size(std::string jpeg, int width, int height) {
  const std::size_t at = frame_of(jpeg);
  jpeg[at + 5] = static_cast<char>(height >> 8);
  jpeg[at + 6] = static_cast<char>(height & 0xFF);
  jpeg[at + 7] = static_cast<char>(width >> 8);
  jpeg[at + 8] = static_cast<char>(width & 0xFF);
  return jpeg;
}

std::string with_byte(std::string bytes, std::size_t at, int value) {
  bytes[at] = static_cast<char>(value);
  return bytes;
}

// A progressive file whose last scan, of nothing, comes again and again: each
// costs a pass over a picture of 16 million dots.
std::string scan_bomb(int scans) {
  std::string file =
      "\xFF\xD8" +
      jpeg_segment(0xC2,
                   std::string("\x08\x10\x00\x10\x00\x01\x01\x11\x00", 9));
  file += jpeg_segment(0xDB, std::string(1, '\0') + std::string(64, '\x01'));
  // One code of one bit, for a run of 16,384 empty blocks.
  file += jpeg_segment(
      0xC4, '\x10' + std::string("\x01") + std::string(15, '\0') + '\xE0');
  for (int i = 0; i < scans; ++i) {
    file += jpeg_segment(0xDA, std::string("\x01\x01\x00\x01\x3F\x00", 6));
    file += std::string(64, '\0');
  }
  return file + "\xFF\xD9";
}

// Four inks at 16 million dots each, of which the decoder must hold all: the
// first pass of a progressive file, one bit a block.
std::string four_inks_in_passes() {
  std::string file =
      "\xFF\xD8" + jpeg_segment(0xC2, std::string("\x08\x10\x00\x10\x00\x04"
                                                  "\x01\x11\x00\x02\x11\x00"
                                                  "\x03\x11\x00\x04\x11\x00",
                                                  18));
  file += jpeg_segment(0xDB, std::string(1, '\0') + std::string(64, '\x01'));
  // One code of one bit, for no difference from the block before.
  file += jpeg_segment(
      0xC4, std::string("\x00\x01", 2) + std::string(15, '\0') + '\0');
  file += jpeg_segment(0xDA, std::string("\x04\x01\x00\x02\x00\x03\x00\x04"
                                         "\x00\x00\x00\x00",
                                         12));
  const std::size_t blocks = std::size_t{4} * 512 * 512;
  return file + std::string(blocks / 8, '\0') + "\xFF\xD9";
}

std::vector<Hostile> hostile_jpegs() {
  const std::string whole = small_jpeg();
  const std::string progressive = small_jpeg(true);
  const std::size_t frame = frame_of(whole);
  const std::size_t scan = whole.find("\xFF\xDA");
  const std::string end = "\xFF\xD9";
  return {
      {"start alone", "\xFF\xD8", "cut short"},
      {"start and end", "\xFF\xD8\xFF\xD9", "damaged"},
      {"filling bytes without end", "\xFF\xD8" + std::string(1'000'000, '\xFF'),
       "cut short"},
      {"head alone", whole.substr(0, scan), "cut short"},
      {"cut in the middle of the picture",
       whole.substr(0, scan + (whole.size() - scan) / 2), "cut short"},
      {"cut, with an end put on",
       whole.substr(0, scan + (whole.size() - scan) / 2) + end, "damaged"},
      {"no end", whole.substr(0, whole.size() - 2), "cut short"},
      {"no picture in the scan", whole.substr(0, scan + 14) + end, "damaged"},
      {"no width", with_size(whole, 0, 48), "no size"},
      {"height that comes later", with_size(whole, 48, 0), "no size"},
      {"largest of all", with_size(whole, 65535, 65535), "too large"},
      {"large, and nothing in it", with_size(whole, 4096, 4096), "damaged"},
      {"large and progressive, and nothing in it",
       with_size(progressive, 4096, 4096), "damaged"},
      {"twelve bits", with_byte(whole, frame + 4, 12), "rare"},
      {"two colours", with_byte(whole, frame + 9, 2), "damaged"},
      {"no colours", with_byte(whole, frame + 9, 0), "damaged"},
      {"255 colours", with_byte(whole, frame + 9, 255), "damaged"},
      {"lossless", with_byte(whole, frame + 1, 0xC3), "rare"},
      {"arithmetic coding", with_byte(whole, frame + 1, 0xC9), "rare"},
      {"two frames",
       whole.substr(0, scan) + whole.substr(frame, 19) + whole.substr(scan),
       "damaged"},
      {"scan before the frame", "\xFF\xD8" + whole.substr(scan), "damaged"},
      {"segment of no length",
       with_segment(whole, std::string("\xFF\xFE\0\0", 4)), "damaged"},
      {"segment longer than the file",
       "\xFF\xD8\xFF\xFE\xFF\xFF" + std::string(100, 'x'), "cut short"},
      {"no marker where one must be", "\xFF\xD8" + std::string(50, 'x'),
       "damaged"},
      {"no tables", "\xFF\xD8" + whole.substr(frame), "damaged"},
      {"sampling factors of 15", with_byte(whole, frame + 11, 0xFF), "damaged"},
      {"sampling factors of 0", with_byte(whole, frame + 11, 0), "damaged"},
      {"passes without end", scan_bomb(5000), "rare"},
      {"directory of a camera that points outside",
       with_segment(whole.substr(0, scan),
                    jpeg_segment(0xE1, std::string("Exif\0\0II*\0\xFF\xFF\xFF"
                                                   "\x7F",
                                                   14))),
       "cut short"},
  };
}

[[maybe_unused]] long virtual_kib() {
  std::FILE* file = std::fopen("/proc/self/status", "r");
  if (!file) return 0;
  char line[256];
  long kib = 0;
  while (std::fgets(line, sizeof line, file)) {
    if (std::sscanf(line, "VmSize: %ld", &kib) == 1) break;
  }
  std::fclose(file);
  return kib;
}

// Decodes in a process of its own that may have no more than 256 MiB beside
// what it was born with.
bool is_read_within_its_memory(const std::string& file) {
  const pid_t child = fork();
  if (child == 0) {
#if !defined(__SANITIZE_ADDRESS__)
    const rlim_t most = static_cast<rlim_t>(virtual_kib() + 256L * 1024) * 1024;
    const rlimit limit{most, most};
    if (setrlimit(RLIMIT_AS, &limit) != 0) _exit(2);
#endif
    std::string why;
    _exit(decode_image(file, "x", why) ? 0 : 1);
  }
  int status = 0;
  return waitpid(child, &status, 0) == child && WIFEXITED(status) &&
         WEXITSTATUS(status) == 0;
}

// Of work, not of waiting; sanitizers take their share.
#if defined(__SANITIZE_ADDRESS__)
constexpr double kSeconds = 10;
#else
constexpr double kSeconds = 1;
#endif

void expect_refused(const std::vector<Hostile>& files) {
  for (const Hostile& file : files) {
    const std::clock_t start = std::clock();
    std::string why;
    EXPECT_FALSE(decode_image(file.bytes, "x", why)) << file.what;
    EXPECT_NE(why.find(file.why), std::string::npos)
        << file.what << ": " << why;
    const double spent =
        static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    EXPECT_LT(spent, kSeconds) << file.what;
  }
}

TEST(HostilePng, IsRefused) {
  const std::vector<Hostile> files = hostile_pngs();
  EXPECT_GE(files.size(), 27U);
  expect_refused(files);
}

TEST(HostileJpeg, IsRefused) {
  const std::vector<Hostile> files = hostile_jpegs();
  EXPECT_GE(files.size(), 27U);
  expect_refused(files);
}

// The ground for the ones above: without the harm done, they are read.
TEST(HostileFiles, AreMadeFromGoodOnes) {
  std::string why;
  EXPECT_TRUE(decode_image(small_png(), "x", why)) << why;
  EXPECT_TRUE(decode_image(small_jpeg(), "x", why)) << why;
  EXPECT_TRUE(decode_image(small_jpeg(true), "x", why)) << why;
}

TEST(HostileFiles, EveryCutIsRefusedOrHarmless) {
  for (const std::string& file :
       {small_png(), small_jpeg(), small_jpeg(true)}) {
    for (std::size_t size = 0; size < file.size(); ++size) {
      std::string why;
      EXPECT_FALSE(decode_image(file.substr(0, size), "x", why)) << size;
      EXPECT_FALSE(why.empty());
    }
  }
}

// The largest picture that is read, of the hungriest kinds.
TEST(HostileFiles, TheLargestAllowedStayWithinTheirMemory) {
  const std::size_t row = 4096 * 8 + 1;
  EXPECT_TRUE(is_read_within_its_memory(
      png_of(png_header(4096, 4096, 16, 6) +
             png_chunk("IDAT", deflated(std::string(row * 4096, '\0'), 1)) +
             png_chunk("IEND", ""))));
  EXPECT_TRUE(is_read_within_its_memory(four_inks_in_passes()));
}

}  // namespace
}  // namespace sheaf
