#include "pdf/colour_profile.h"

#include <cassert>
#include <cstdint>
#include <initializer_list>
#include <string_view>
#include <utility>
#include <vector>

namespace sheaf {

namespace {

constexpr std::size_t kHeaderSize = 128;
constexpr std::size_t kTagSize = 12;

// All numbers are written with the greater byte first.
void append_u16(std::string& out, std::uint32_t value) {
  out += static_cast<char>(value >> 8U & 0xFFU);
  out += static_cast<char>(value & 0xFFU);
}
void append_u32(std::string& out, std::uint32_t value) {
  append_u16(out, value >> 16U);
  append_u16(out, value & 0xFFFFU);
}

// s15Fixed16Number: 1.0 is 0x10000.
struct Xyz {
  std::uint32_t x, y, z;
};
void append_xyz(std::string& out, const Xyz& xyz) {
  for (const std::uint32_t value : {xyz.x, xyz.y, xyz.z}) {
    append_u32(out, value);
  }
}

// Daylight of 5000 K, to which all profiles refer (6.1.9): 0.9642, 1, 0.8249.
constexpr Xyz kD50{0xF6D6, 0x10000, 0xD32D};
// The primaries of sRGB, carried from its white of 6500 K to that of the
// profile by Bradford's matrix; colour_profile_test works them out. Together
// they make white.
constexpr Xyz kRed{0x6FA0, 0x38F5, 0x0390};
constexpr Xyz kGreen{0x6297, 0xB787, 0x18D9};
constexpr Xyz kBlue{0x249F, 0x0F84, 0xB6C4};
// u8Fixed8Number.
constexpr std::uint32_t kGamma = 0x0233;

std::string xyz_type(const Xyz& xyz) {
  std::string data("XYZ \0\0\0\0", 8);
  append_xyz(data, xyz);
  return data;
}

std::string curve_type() {
  std::string data("curv\0\0\0\0", 8);
  append_u32(data, 1);
  append_u16(data, kGamma);
  return data;
}

std::string text_type(std::string_view text) {
  std::string data("text\0\0\0\0", 8);
  data += text;
  return data += '\0';
}

// The name in ASCII; without one in Unicode or in a script of the Macintosh,
// whose places must still be there (6.5.16).
std::string description_type(std::string_view text) {
  std::string data("desc\0\0\0\0", 8);
  append_u32(data, static_cast<std::uint32_t>(text.size() + 1));
  data += text;
  return data.append(1 + 4 + 4 + 2 + 1 + 67, '\0');
}

std::string header(std::uint32_t size) {
  std::string out;
  append_u32(out, size);
  append_u32(out, 0);           // no module is preferred
  append_u32(out, 0x02400000);  // version 2.4
  out += "mntrRGB XYZ ";
  // The day on which it was designed: no clock may reach a file.
  for (const std::uint32_t part : {2026U, 11U, 29U, 0U, 0U, 0U}) {
    append_u16(out, part);
  }
  out += "acsp";
  out.append(7 * 4, '\0');  // no platform, maker or model; perceptual
  append_xyz(out, kD50);
  out.append(kHeaderSize - out.size(), '\0');
  return out;
}

}  // namespace

std::string colour_profile() {
  using Tag = std::pair<std::string_view, std::string>;
  const std::vector<Tag> tags = {
      {"desc", description_type("sRGB primaries, gamma 2.2")},
      {"cprt", text_type("CC0")},
      {"wtpt", xyz_type(kD50)},
      {"rXYZ", xyz_type(kRed)},
      {"gXYZ", xyz_type(kGreen)},
      {"bXYZ", xyz_type(kBlue)},
      {"rTRC", curve_type()},
      {"gTRC", {}},
      {"bTRC", {}}};
  const std::size_t start = kHeaderSize + 4 + kTagSize * tags.size();
  std::string table, data;
  append_u32(table, static_cast<std::uint32_t>(tags.size()));
  std::size_t offset = 0, size = 0;
  for (const auto& [name, content] : tags) {
    // A tag without data of its own has those of the one before.
    if (!content.empty()) {
      data.resize((data.size() + 3) / 4 * 4, '\0');
      offset = start + data.size();
      size = content.size();
      data += content;
    }
    table += name;
    append_u32(table, static_cast<std::uint32_t>(offset));
    append_u32(table, static_cast<std::uint32_t>(size));
  }
  data.resize((data.size() + 3) / 4 * 4, '\0');
  std::string profile = header(static_cast<std::uint32_t>(start + data.size()));
  assert(profile.size() == kHeaderSize);
  return profile + table + data;
}

}  // namespace sheaf
