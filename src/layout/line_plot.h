#pragma once

#include <span>
#include <string>
#include <vector>

#include "layout/block.h"

namespace sheaf {

/// A plot of values over time in black. Dashes and labels at the lines' ends
/// tell them apart, never greyness alone.
struct LinePlot {
  struct Point {
    int x = 0;  ///< days from the left edge, say
    double value = 0;
  };
  /// A straight line beside the points, with a word at its right end.
  struct Line {
    enum class Dash : std::uint8_t { dashes, dots };
    Point from, to;
    Dash dash = Dash::dashes;
    std::string label;
  };
  std::string value_label;  ///< over it: what is counted
  int least = 0, most = 100;
  int tick = 20;              ///< between the numbers at the left
  std::vector<Point> points;  ///< by x
  std::vector<Line> lines;
  int share = 1;  ///< of the height, beside other plots
};

/// A place under the plots that has a name: "12 Jan".
struct PlotTick {
  int x = 0;
  std::string label;
};

/// Adds plots one below the other, over the same x from 0 to `most_x`, as one
/// block with a figure, whose alternative text the caller words and which says
/// all values. Where ticks would touch, every second or third is left. All
/// text is of the size of teacher's text.
void add_line_plots(Composer& composer, std::span<const LinePlot> plots,
                    int most_x, std::span<const PlotTick> ticks, Length height,
                    std::string alternative);

}  // namespace sheaf
