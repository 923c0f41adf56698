#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace sheaf {

/// Makes a picture smaller, a row at a time from the top, so that a large one
/// need not be held whole. Each new pixel is the mean of the area that it
/// covers, counted in whole numbers.
class ScaleDown {
 public:
  /// A picture of `channels` bytes a pixel, with its longer side brought down
  /// to `longest`; one that is no longer stays as it is.
  ScaleDown(int width, int height, int channels, int longest);

  void add_row(std::span<const std::uint8_t> row);

  int width() const { return new_width_; }
  int height() const { return new_height_; }
  /// All rows, once as many as announced have been added.
  std::vector<std::uint8_t> take() { return std::move(pixels_); }

 private:
  void finish_row();

  std::size_t width_, height_, channels_;
  std::uint64_t area_;
  int new_width_, new_height_;
  std::size_t row_ = 0;
  std::vector<std::uint32_t> squeezed_;  // one row, of the new width
  std::vector<std::uint64_t> sums_;      // the new row so far
  std::vector<std::uint8_t> pixels_;
};

}  // namespace sheaf
