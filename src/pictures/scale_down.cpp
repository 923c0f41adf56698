#include "pictures/scale_down.h"

#include <algorithm>
#include <cassert>

namespace sheaf {

namespace {

// The shorter side shrinks in step, to at least one pixel.
int shrunk(int side, int longer, int longest) {
  if (longer <= longest) return side;
  const std::int64_t scaled =
      (std::int64_t{side} * longest + longer / 2) / longer;
  return static_cast<int>(std::max<std::int64_t>(scaled, 1));
}

}  // namespace

ScaleDown::ScaleDown(int width, int height, int channels, int longest)
    : width_(static_cast<std::size_t>(width)),
      height_(static_cast<std::size_t>(height)),
      channels_(static_cast<std::size_t>(channels)),
      area_(std::max<std::uint64_t>(std::uint64_t{width_} * height_, 1)),
      new_width_(shrunk(width, std::max(width, height), longest)),
      new_height_(shrunk(height, std::max(width, height), longest)) {
  const std::size_t row = static_cast<std::size_t>(new_width_) * channels_;
  squeezed_.resize(row);
  sums_.resize(row);
  pixels_.reserve(row * static_cast<std::size_t>(new_height_));
}

// Sideways, an old pixel is new_width units wide and a new one width units;
// downwards likewise. So all weights are whole, and those of one new pixel add
// up to width * height.
void ScaleDown::add_row(std::span<const std::uint8_t> row) {
  assert(row.size() == width_ * channels_ && row_ < height_);
  const auto new_width = static_cast<std::size_t>(new_width_);
  const auto new_height = static_cast<std::size_t>(new_height_);
  if (new_width == width_ && new_height == height_) {
    pixels_.insert(pixels_.end(), row.begin(), row.end());
    ++row_;
    return;
  }
  std::fill(squeezed_.begin(), squeezed_.end(), 0);
  std::size_t to = 0;
  for (std::size_t from = 0; from < width_; ++from) {
    std::size_t left = new_width;
    while (left > 0) {
      const std::size_t end = (to + 1) * width_;
      const std::size_t at = (from + 1) * new_width - left;
      const std::size_t part = std::min(left, end - at);
      for (std::size_t c = 0; c < channels_; ++c) {
        squeezed_[to * channels_ + c] +=
            static_cast<std::uint32_t>(part) * row[from * channels_ + c];
      }
      left -= part;
      if (at + part == end) ++to;
    }
  }
  std::size_t left = new_height;
  while (left > 0) {
    const std::size_t done = pixels_.size() / squeezed_.size();
    const std::size_t end = (done + 1) * height_;
    const std::size_t at = (row_ + 1) * new_height - left;
    const std::size_t part = std::min(left, end - at);
    for (std::size_t i = 0; i < sums_.size(); ++i) {
      sums_[i] += std::uint64_t{squeezed_[i]} * part;
    }
    left -= part;
    if (at + part == end) finish_row();
  }
  ++row_;
}

void ScaleDown::finish_row() {
  for (std::uint64_t& sum : sums_) {
    pixels_.push_back(static_cast<std::uint8_t>((sum + area_ / 2) / area_));
    sum = 0;
  }
}

}  // namespace sheaf
