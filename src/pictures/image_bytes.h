#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace sheaf {

/// Numbers in the bytes of picture files. The caller sees to it that they are
/// there.

inline std::uint32_t byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

inline std::uint32_t big_endian_16(std::string_view bytes, std::size_t at) {
  return byte_at(bytes, at) << 8 | byte_at(bytes, at + 1);
}

inline std::uint32_t big_endian_32(std::string_view bytes, std::size_t at) {
  return big_endian_16(bytes, at) << 16 | big_endian_16(bytes, at + 2);
}

/// Whether a picture of that size is one that is read; if not, why.
bool is_size_allowed(std::uint32_t width, std::uint32_t height,
                     std::string& why);

}  // namespace sheaf
