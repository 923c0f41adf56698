#include "preview/scaled_picture.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace sheaf {

namespace {

// The pixels of the picture that one pixel of the canvas shows, with their
// shares; what the picture covers of it is the sum.
struct Shares {
  int first = 0;
  std::vector<float> shares;
};

// For the pixels of the canvas from `begin` on, along one side of a picture of
// `count` pixels that is drawn from `from` to `from + length`.
std::vector<Shares> shares_along(int count, double from, double length,
                                 int begin, int end) {
  std::vector<Shares> all;
  const double each = count / length;  // pixels of the picture in one of ours
  for (int i = begin; i < end; ++i) {
    const double left = std::clamp((i - from) * each, 0.0, double(count));
    const double right = std::clamp((i + 1 - from) * each, 0.0, double(count));
    const double covered = (right - left) / each;
    Shares pixel;
    if (each >= 1) {
      pixel.first = std::min(static_cast<int>(left), count - 1);
      for (int k = pixel.first; k < count && k < right; ++k) {
        const double part =
            std::min(right, k + 1.0) - std::max(left, double(k));
        pixel.shares.push_back(static_cast<float>(part / each));
      }
    } else {
      const double middle =
          std::clamp((left + right) / 2 - 0.5, 0.0, count - 1.0);
      pixel.first = std::min(static_cast<int>(middle), std::max(count - 2, 0));
      const double second = middle - pixel.first;
      pixel.shares.push_back(static_cast<float>(covered * (1 - second)));
      if (count > 1) {
        pixel.shares.push_back(static_cast<float>(covered * second));
      }
    }
    all.push_back(std::move(pixel));
  }
  return all;
}

using Colour = std::array<float, 4>;  // red, green, blue times alpha; alpha

Colour pixel_at(const PixelImage& image, std::size_t at) {
  const std::uint8_t* rgb = image.rgb.data() + 3 * at;
  const float alpha = image.alpha.empty() ? 255.0F : image.alpha[at];
  const float part = alpha / 255.0F;
  return {static_cast<float>(rgb[0]) * part, static_cast<float>(rgb[1]) * part,
          static_cast<float>(rgb[2]) * part, alpha};
}

void add(Colour& sum, const Colour& colour, float share) {
  for (std::size_t c = 0; c < sum.size(); ++c) sum[c] += colour[c] * share;
}

// Rows of the picture brought to the width on the canvas; the last two are
// kept, since neighbours on the canvas show some of the same rows.
class Rows {
 public:
  Rows(const PixelImage& image, const std::vector<Shares>& across)
      : image_(image), across_(across) {}

  const std::vector<Colour>& row(int y) {
    Kept& kept = kept_[static_cast<std::size_t>(y % 2)];
    if (kept.y == y) return kept.colours;
    kept.y = y;
    kept.colours.assign(across_.size(), {});
    const std::size_t start =
        static_cast<std::size_t>(y) * static_cast<std::size_t>(image_.width);
    for (std::size_t x = 0; x < across_.size(); ++x) {
      std::size_t at = start + static_cast<std::size_t>(across_[x].first);
      for (const float share : across_[x].shares) {
        add(kept.colours[x], pixel_at(image_, at++), share);
      }
    }
    return kept.colours;
  }

 private:
  struct Kept {
    int y = -1;
    std::vector<Colour> colours;
  };
  const PixelImage& image_;
  const std::vector<Shares>& across_;
  std::array<Kept, 2> kept_;
};

}  // namespace

void draw_pixels(Canvas& canvas, const PixelImage& image, Spot corner,
                 double width, double height) {
  if (image.width <= 0 || image.height <= 0 || width <= 0 || height <= 0) {
    return;
  }
  const auto begin = [](double edge) {
    return static_cast<int>(std::max(std::floor(edge), 0.0));
  };
  const auto end = [](double edge, int most) {
    return static_cast<int>(std::min(std::ceil(edge), double(most)));
  };
  const int left = begin(corner.x), top = begin(corner.y);
  const int right = end(corner.x + width, canvas.width());
  const int bottom = end(corner.y + height, canvas.height());
  const auto across = shares_along(image.width, corner.x, width, left, right);
  const auto down = shares_along(image.height, corner.y, height, top, bottom);
  Rows rows(image, across);
  std::vector<Colour> sums;
  for (int y = top; y < bottom; ++y) {
    const Shares& shares = down[static_cast<std::size_t>(y - top)];
    sums.assign(across.size(), {});
    int from = shares.first;
    for (const float share : shares.shares) {
      const std::vector<Colour>& row = rows.row(from++);
      for (std::size_t x = 0; x < sums.size(); ++x) add(sums[x], row[x], share);
    }
    for (std::size_t x = 0; x < sums.size(); ++x) {
      const Colour& c = sums[x];
      canvas.lay_over(left + static_cast<int>(x), y, c[0], c[1], c[2], c[3]);
    }
  }
}

}  // namespace sheaf
