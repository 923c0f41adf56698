#pragma once

#include <optional>
#include <string>
#include <vector>

#include "driver/workspace.h"

namespace sheaf {

/// A lesson with every choice written out.
struct Settled {
  std::optional<std::string> text;  ///< of the lesson file
  /// Why there is none, as the end of "LESSON cannot be settled: "; or, a whole
  /// sentence, that its pictures are too large.
  std::string why, too_large;
  /// Files of typefaces, which cannot stand in a lesson.
  std::vector<std::string> typefaces;
};

/// The fullest text of a lesson that makes the same pages. There is none where
/// `diagnostics` has an error or `why` or `too_large` says so.
Settled settle(Workspace& workspace, const LessonRequest& request,
               const std::string& path, Diagnostics& diagnostics);

}  // namespace sheaf
