// Bytes as a PNG file, with its checksums put right so that more than the first
// check is reached.

#include "fuzz_images.h"

namespace {

std::uint32_t number_at(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
  }
  return value;
}

// PNG, third edition, annex D.
std::uint32_t checksum(std::string_view bytes) {
  std::uint32_t sum = 0xFFFFFFFF;
  for (const char byte : bytes) {
    sum ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) {
      sum = sum & 1 ? 0xEDB88320 ^ sum >> 1 : sum >> 1;
    }
  }
  return ~sum;
}

void put_checksums_right(std::string& bytes) {
  std::size_t at = 8;
  while (at + 12 <= bytes.size()) {
    const std::size_t length = number_at(bytes, at);
    if (length > bytes.size() - at - 12) return;
    const std::uint32_t sum =
        checksum(std::string_view(bytes).substr(at + 4, length + 4));
    for (std::size_t i = 0; i < 4; ++i) {
      bytes[at + 8 + length + i] = static_cast<char>(sum >> (24 - 8 * i));
    }
    at += length + 12;
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  std::string bytes("\x89PNG\r\n\x1A\n", 8);
  bytes.append(reinterpret_cast<const char*>(data), size);
  if (bytes.size() >= 24) {
    const std::uint64_t pixels =
        std::uint64_t{number_at(bytes, 16)} * number_at(bytes, 20);
    if (pixels > sheaf::fuzz::kManyPixels) return 0;
  }
  put_checksums_right(bytes);
  sheaf::fuzz::decode_checked(bytes);
  return 0;
}
