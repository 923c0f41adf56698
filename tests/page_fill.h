#pragma once

#include <string>
#include <vector>

#include "look_checks.h"

namespace sheaf::test {

/// How full the pages of a learner's packet are: what paper a week takes.

struct PageFill {
  std::string sheet;  ///< its name; "blank" for a page with nothing on it
  /// The height from the first ink in the body to the last, as a share of the
  /// body's height. The frame (name, heading, direction, footer) is not
  /// counted.
  double share = 0;
  bool blank = false;
  /// Blank because the page before it will be cut up.
  bool back_of_cut = false;

  bool under_half() const { return !blank && share < 0.5; }
};

std::vector<PageFill> page_fill(const Document& packet);

/// The lessons that paper is measured with: the demo lessons, and of the year
/// one of each family of patterns.
std::vector<std::string> measured_lessons();

}  // namespace sheaf::test
