#pragma once

#include <string>
#include <vector>

#include "driver/workspace.h"
#include "planning/placement_words.h"

namespace sheaf {

/// A check of where to begin, made for a sequence.
struct MadePlacement {
  PlacementWords words;
  std::string text;  ///< the lesson file that holds it
  /// Lessons whose words could not be left out, since they have errors.
  std::vector<std::string> unread;
  std::size_t lessons = 0;  ///< whose words were left out
};

/// Makes the check for the sequence in a file, in words of none of the lessons
/// in its folder. `name` is how the check names the sequence. To be used only
/// if no error stands. Throws MachineError where a file cannot be read.
MadePlacement make_placement(Workspace& workspace, const FilePath& sequence,
                             const std::string& name, Diagnostics& diagnostics);

}  // namespace sheaf
