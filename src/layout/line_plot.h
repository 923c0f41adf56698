#pragma once

#include <optional>
#include <string>
#include <vector>

#include "layout/block.h"

namespace sheaf {

/// A plot of values from 0 to 100 over equal steps (weeks), in black.
/// Dashes and labels at the lines tell them apart, never greyness alone.
struct LinePlot {
  struct Point {
    int step = 0;  ///< from 0
    int value = 0;
  };
  int steps = 1;
  std::vector<Point> points;  ///< by step
  /// A level line from the first step to the last, with its label.
  std::optional<int> level;
  std::string level_label;
  /// A straight line between two points, with its label.
  std::optional<std::pair<Point, Point>> aim;
  std::string aim_label;
  std::string step_label, value_label;
};

/// Adds it as a block with a figure, whose alternative text the caller words;
/// its figures belong into a table beside it.
void add_line_plot(Composer& composer, const LinePlot& plot, Length height,
                   std::string alternative);

}  // namespace sheaf
