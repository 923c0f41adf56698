#include "base/base64.h"

#include <algorithm>
#include <cstdint>

namespace sheaf {

namespace {

constexpr std::string_view kSigns =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

bool is_space(char c) {
  return c == ' ' || c == '\n' || c == '\r' || c == '\t';
}

}  // namespace

std::string to_base64(std::string_view bytes) {
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t count = std::min<std::size_t>(3, bytes.size() - i);
    std::uint32_t bits = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      bits = bits << 8U |
             (k < count ? static_cast<unsigned char>(bytes[i + k]) : 0U);
    }
    for (std::size_t k = 0; k < 4; ++k) {
      text += k <= count ? kSigns[bits >> (18U - 6U * k) & 63U] : '=';
    }
  }
  return text;
}

std::optional<std::string> from_base64(std::string_view text) {
  std::string bytes;
  std::uint32_t bits = 0;
  std::size_t signs = 0, padding = 0;
  for (const char c : text) {
    if (is_space(c)) continue;
    if (c == '=') {
      ++padding;
      continue;
    }
    const std::size_t value = kSigns.find(c);
    if (value == std::string_view::npos || padding > 0) return std::nullopt;
    bits = bits << 6U | static_cast<std::uint32_t>(value);
    if (++signs % 4 != 0) continue;
    for (const unsigned shift : {16U, 8U, 0U}) {
      bytes += static_cast<char>(bits >> shift & 255U);
    }
  }
  if ((signs + padding) % 4 != 0 || padding > 2) return std::nullopt;
  if (padding == 1) {
    bytes += static_cast<char>(bits >> 10U & 255U);
    bytes += static_cast<char>(bits >> 2U & 255U);
  } else if (padding == 2) {
    bytes += static_cast<char>(bits >> 4U & 255U);
  }
  return bytes;
}

}  // namespace sheaf
