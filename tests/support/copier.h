#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "layout/page.h"
#include "preview/preview.h"

namespace sheaf::testing_support {

/// A page as a bad photocopier makes it: seen with 300 dots an inch, blurred by
/// a Gaussian of 0.8 dots, and each dot then black or white, parted at half.
/// (The figures are ours: a copy of a copy that is still called readable.)
class PhotoCopy {
 public:
  explicit PhotoCopy(const Page& page);

  /// The share of a mark's line that still has ink, by its dashes or dots; of a
  /// dot's rim or middle likewise. 1 for what has no line.
  double kept_of_line(const Mark& mark) const;
  /// The share of the gaps between its dashes that are still white in their
  /// middle; 1 where it has none.
  double kept_of_gaps(const Mark& mark) const;
  /// The share of the dots of a rectangle that are black.
  double black_in(const Rect& rect) const;
  /// How many dots of a rectangle are black.
  std::int64_t black_dots(const Rect& rect) const;

 private:
  struct Spot {
    double x = 0, y = 0;
  };
  using Line = std::vector<Spot>;

  static std::vector<Line> lines_of(const Mark& mark);
  bool is_black(int x, int y) const;
  bool has_ink_near(Spot spot) const;
  static bool is_in(const std::vector<Rect>& rects, Spot spot);

  int width_ = 0;
  int height_ = 0;
  std::vector<bool> black_;
  std::vector<Rect> white_;  // what is laid white over lines
  std::vector<Rect> solid_;  // dots and bars that stand on lines
};

/// What a line is drawn with: "0.5 pt, ink 110, dashes of 2 and 1.5 mm"; empty
/// for a mark without lines.
std::string told_of_line(const Mark& mark);

}  // namespace sheaf::testing_support
