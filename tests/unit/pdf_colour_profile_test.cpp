#include <gtest/gtest.h>

#include <array>
#include <cstdint>
#include <string>

#include "pdf/colour_profile.h"

namespace sheaf {
namespace {

using Vector = std::array<double, 3>;
using Matrix = std::array<Vector, 3>;

Vector times(const Matrix& m, const Vector& v) {
  Vector result{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) result[i] += m[i][j] * v[j];
  }
  return result;
}

Matrix inverse(const Matrix& m) {
  const auto cofactor = [&](std::size_t i, std::size_t j) {
    const auto& a = m[(i + 1) % 3];
    const auto& b = m[(i + 2) % 3];
    return a[(j + 1) % 3] * b[(j + 2) % 3] - a[(j + 2) % 3] * b[(j + 1) % 3];
  };
  double whole = 0;
  for (std::size_t j = 0; j < 3; ++j) whole += m[0][j] * cofactor(0, j);
  Matrix result{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) result[j][i] = cofactor(i, j) / whole;
  }
  return result;
}

// XYZ of a chromaticity at a brightness of 1.
Vector xyz(double x, double y) { return {x / y, 1, (1 - x - y) / y}; }

std::uint32_t u32(const std::string& text, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    value = value << 8U | static_cast<unsigned char>(text[at + i]);
  }
  return value;
}

// Where a tag's data begin, by the table behind the header.
std::size_t place_of(const std::string& profile, const std::string& tag) {
  for (std::uint32_t i = 0; i < u32(profile, 128); ++i) {
    const std::size_t entry = 132 + std::size_t{12} * i;
    if (profile.compare(entry, 4, tag) == 0) return u32(profile, entry + 4);
  }
  return std::string::npos;
}

Vector xyz_of(const std::string& profile, const std::string& tag) {
  const std::size_t at = place_of(profile, tag);
  Vector result{};
  for (std::size_t i = 0; i < 3; ++i) {
    result[i] = u32(profile, at + 8 + 4 * i) / 65536.0;
  }
  return result;
}

// Header and tags as ICC.1:2001-04 places them (6.1, 6.2, 6.3.1.2).
TEST(ColourProfile, HasTheFormOfTheSpecification) {
  const std::string profile = colour_profile();
  EXPECT_EQ(u32(profile, 0), profile.size());
  EXPECT_EQ(profile.size() % 4, 0U);
  EXPECT_EQ(profile.substr(12, 12), "mntrRGB XYZ ");
  EXPECT_EQ(profile.substr(36, 4), "acsp");
  for (const char* tag : {"desc", "cprt", "wtpt", "rXYZ", "gXYZ", "bXYZ",
                          "rTRC", "gTRC", "bTRC"}) {
    const std::size_t place = place_of(profile, tag);
    ASSERT_LT(place, profile.size()) << tag;
    EXPECT_EQ(place % 4, 0U) << tag;
  }
  EXPECT_EQ(place_of(profile, "rTRC"), place_of(profile, "bTRC"));
}

// The primaries and the white of sRGB (IEC 61966-2-1), carried to D50 (ICC.1,
// 6.1.9) by the matrix of Bradford (as in ICC.1:2004-10, annex E).
TEST(ColourProfile, HasThePrimariesOfSrgb) {
  const std::string profile = colour_profile();
  const Matrix bradford = {{{0.8951, 0.2664, -0.1614},
                            {-0.7502, 1.7135, 0.0367},
                            {0.0389, -0.0685, 1.0296}}};
  const std::array<Vector, 3> primaries = {xyz(0.64, 0.33), xyz(0.30, 0.60),
                                           xyz(0.15, 0.06)};
  const Vector white = xyz(0.3127, 0.3290);
  const Vector d50 = {0.9642, 1, 0.8249};
  Matrix columns{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) columns[i][j] = primaries[j][i];
  }
  const Vector shares = times(inverse(columns), white);
  const Vector from = times(bradford, white);
  const Vector to = times(bradford, d50);
  const std::array<const char*, 3> tags = {"rXYZ", "gXYZ", "bXYZ"};
  Vector sum{};
  for (std::size_t k = 0; k < 3; ++k) {
    Vector colour = primaries[k];
    for (double& value : colour) value *= shares[k];
    Vector cones = times(bradford, colour);
    for (std::size_t i = 0; i < 3; ++i) cones[i] *= to[i] / from[i];
    const Vector expected = times(inverse(bradford), cones);
    const Vector found = xyz_of(profile, tags[k]);
    for (std::size_t i = 0; i < 3; ++i) {
      EXPECT_NEAR(found[i], expected[i], 0.0001) << tags[k];
      sum[i] += found[i];
    }
  }
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(sum[i], d50[i], 0.00005);
}

}  // namespace
}  // namespace sheaf
