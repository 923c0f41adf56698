#pragma once

#include <string>

#include "fault/one_run.h"
#include "fault/scenes.h"

namespace sheaf::fault {

/// What may come of a run that met a fault, and what may not.
enum class Outcome {
  same,     ///< the same bytes as without a fault, and code 0
  clean,    ///< files all old or all new, code 3, one sentence that names why
  left,     ///< something was left, which was said and the next run cleared
  failure,  ///< anything else
};

/// A scene with what it does without a fault.
struct Played {
  const Scene& scene;
  Files before, after;
  Ended ended;
};

/// Prepares the scene in a folder and runs it there without a fault. Throws
/// std::runtime_error where that does not go well.
Played play(const Scene& scene, const std::string& folder);

struct Verdict {
  Outcome outcome = Outcome::failure;
  std::string why;  ///< of a failure
  /// Whether it would be no failure if the next run clears what was left.
  bool may_be_left = false;
};

/// Judges what a run in the folder has come to.
Verdict judge(const Played& played, const std::string& folder,
              const Point& point, const Ended& ended);

/// Runs the scene with a fault in the folder, judges it (with a further run
/// where something was left) and puts the folder right.
Verdict run_and_judge(const Played& played, const std::string& folder,
                      const Point& point, Ended& ended);

}  // namespace sheaf::fault
