#include "pictures/jpeg_file.h"

#include "pictures/image_bytes.h"

namespace sheaf {

namespace {

constexpr std::string_view kCutShort = "it is cut short";
constexpr std::string_view kDamaged = "it is damaged";
constexpr std::string_view kRare = "it is a JPEG picture of a rare kind";

// Second bytes of the markers that are looked at (T.81, table B.1).
enum : std::uint32_t {
  kFirstFrame = 0xC0,
  kLastFrame = 0xCF,
  kHuffmanTables = 0xC4,
  kArithmeticTables = 0xCC,
  kReservedFrame = 0xC8,
  kFirstRestart = 0xD0,
  kLastRestart = 0xD7,
  kStart = 0xD8,
  kEnd = 0xD9,
  kScan = 0xDA,
  kQuantization = 0xDB,
  kRestartInterval = 0xDD,
  kApp0 = 0xE0,
  kApp1 = 0xE1,
  kApp14 = 0xEE,
  kApp15 = 0xEF,
  kComment = 0xFE,
};

// Pictures come in about ten scans; each costs a pass over all of it.
constexpr int kMaxScans = 40;

std::uint32_t little_endian_16(std::string_view bytes, std::size_t at) {
  return byte_at(bytes, at) | byte_at(bytes, at + 1) << 8;
}

// The orientation tag of an Exif segment, which is a small TIFF file; 1 where
// it is missing or makes no sense.
int exif_orientation(std::string_view exif) {
  constexpr std::string_view kMark("Exif\0\0", 6);
  if (!exif.starts_with(kMark)) return 1;
  const std::string_view tiff = exif.substr(kMark.size());
  if (tiff.size() < 8) return 1;
  const bool little = tiff.starts_with("II");
  if (!little && !tiff.starts_with("MM")) return 1;
  const auto number_16 = [&](std::size_t at) {
    return little ? little_endian_16(tiff, at) : big_endian_16(tiff, at);
  };
  const std::size_t directory =
      little ? number_16(4) | number_16(6) << 16 : big_endian_32(tiff, 4);
  if (directory > tiff.size() - 2) return 1;
  const std::size_t entries = number_16(directory);
  constexpr std::size_t kEntry = 12;
  for (std::size_t i = 0; i < entries; ++i) {
    const std::size_t at = directory + 2 + i * kEntry;
    if (at + kEntry > tiff.size()) return 1;
    constexpr std::uint32_t kOrientation = 0x0112;
    if (number_16(at) != kOrientation) continue;
    const std::uint32_t value = number_16(at + 8);
    return value >= 1 && value <= 8 ? static_cast<int>(value) : 1;
  }
  return 1;
}

class Reader {
 public:
  Reader(std::string_view bytes, std::string& why) : rest_(bytes), why_(why) {}

  std::optional<JpegFile> read() {
    file_.bare = "\xFF\xD8";
    rest_.remove_prefix(2);
    while (!at_end_) {
      if (!read_marker()) return std::nullopt;
    }
    if (file_.width == 0 || scans_ == 0) {
      why_ = kDamaged;
      return std::nullopt;
    }
    return std::move(file_);
  }

 private:
  bool refuse(std::string_view why) {
    why_ = why;
    return false;
  }

  bool read_marker() {
    if (rest_.size() < 2) return refuse(kCutShort);
    if (byte_at(rest_, 0) != 0xFF) return refuse(kDamaged);
    // Any number of filling bytes may stand before a marker.
    while (rest_.size() >= 2 && byte_at(rest_, 1) == 0xFF) {
      rest_.remove_prefix(1);
    }
    if (rest_.size() < 2) return refuse(kCutShort);
    const std::uint32_t marker = byte_at(rest_, 1);
    rest_.remove_prefix(2);
    if (marker == kEnd) {
      file_.bare += "\xFF\xD9";
      at_end_ = true;
      return true;
    }
    if (rest_.size() < 2) return refuse(kCutShort);
    const std::size_t length = big_endian_16(rest_, 0);
    if (length < 2) return refuse(kDamaged);
    if (length > rest_.size()) return refuse(kCutShort);
    const std::string_view contents = rest_.substr(2, length - 2);
    rest_.remove_prefix(length);
    return read_segment(marker, contents);
  }

  bool read_segment(std::uint32_t marker, std::string_view contents) {
    if (marker >= kApp0 && marker <= kApp15) return read_app(marker, contents);
    if (marker == kComment) return true;
    if (marker == kScan) return read_scan(contents);
    if (marker == kHuffmanTables || marker == kQuantization ||
        marker == kRestartInterval) {
      keep(marker, contents);
      return true;
    }
    if (marker >= kFirstFrame && marker <= kLastFrame) {
      return read_frame(marker, contents);
    }
    return refuse(kDamaged);
  }

  // Which picture is in the file. Only the kinds that every reader of PDF
  // knows: baseline, extended and progressive, Huffman-coded, eight bits.
  bool read_frame(std::uint32_t marker, std::string_view contents) {
    if (marker == kReservedFrame || contents.size() < 6) {
      return refuse(kDamaged);
    }
    if (marker > kFirstFrame + 2 || byte_at(contents, 0) != 8) {
      return refuse(kRare);
    }
    if (file_.width != 0) return refuse(kDamaged);
    const std::uint32_t height = big_endian_16(contents, 1);
    const std::uint32_t width = big_endian_16(contents, 3);
    const std::uint32_t components = byte_at(contents, 5);
    if (!is_size_allowed(width, height, why_)) return false;
    if (contents.size() != 6 + 3 * components) return refuse(kDamaged);
    if (components != 1 && components != 3 && components != 4) {
      return refuse(kRare);
    }
    file_.width = static_cast<int>(width);
    file_.height = static_cast<int>(height);
    file_.components = static_cast<int>(components);
    keep(marker, contents);
    return true;
  }

  bool read_scan(std::string_view contents) {
    if (file_.width == 0) return refuse(kDamaged);
    if (++scans_ > kMaxScans) return refuse(kRare);
    keep(kScan, contents);
    // The packed picture: up to a marker that is not a restart one. A byte of
    // 255 in it is followed by 0.
    std::size_t at = 0;
    while (true) {
      at = rest_.find('\xFF', at);
      if (at == std::string_view::npos || at + 1 >= rest_.size()) {
        return refuse(kCutShort);
      }
      const std::uint32_t next = byte_at(rest_, at + 1);
      if (next != 0 && (next < kFirstRestart || next > kLastRestart)) break;
      at += 2;
    }
    file_.bare += rest_.substr(0, at);
    rest_.remove_prefix(at);
    return true;
  }

  // Of what programs add, only what says which colours are meant is kept: the
  // head of a JFIF segment (without its small picture) and Adobe's segment.
  bool read_app(std::uint32_t marker, std::string_view contents) {
    constexpr std::string_view kJfif("JFIF\0", 5);
    constexpr std::size_t kJfifHead = 12;
    constexpr std::size_t kAdobe = 12;
    if (marker == kApp1 && file_.orientation == 1) {
      file_.orientation = exif_orientation(contents);
    } else if (marker == kApp0 && contents.starts_with(kJfif) &&
               contents.size() >= kJfifHead + 2) {
      keep(marker,
           std::string(contents.substr(0, kJfifHead)) + std::string(2, '\0'));
    } else if (marker == kApp14 && contents.starts_with("Adobe") &&
               contents.size() >= kAdobe) {
      keep(marker, contents.substr(0, kAdobe));
    }
    return true;
  }

  void keep(std::uint32_t marker, std::string_view contents) {
    const std::size_t length = contents.size() + 2;
    file_.bare += '\xFF';
    file_.bare += static_cast<char>(marker);
    file_.bare += static_cast<char>(length >> 8);
    file_.bare += static_cast<char>(length & 0xFF);
    file_.bare += contents;
  }

  std::string_view rest_;
  std::string& why_;
  JpegFile file_;
  int scans_ = 0;
  bool at_end_ = false;
};

}  // namespace

std::optional<JpegFile> read_jpeg_file(std::string_view bytes,
                                       std::string& why) {
  return Reader(bytes, why).read();
}

}  // namespace sheaf
