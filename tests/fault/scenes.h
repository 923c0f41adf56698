#pragma once

#include <string>
#include <vector>

#include "fault/one_run.h"

namespace sheaf::fault {

/// A verb with the files that it finds.
struct Scene {
  std::string name;
  Command command;
  /// Run first, without faults; what they leave is what the verb finds.
  std::vector<std::vector<std::string>> before;
  Files files;  ///< before those
  Files then;   ///< put there after those
  /// Calls come in no certain order, so that only some are tried: each number
  /// is another call in each run.
  bool threads = false;
  /// Each run is made from its beginning: it has threads or a queue of news.
  bool alone = false;
  /// It mostly waits, so several may run for each that would else.
  bool waits = false;
  /// Every allocation is tried, and not only some.
  bool every_allocation = false;
};

std::vector<Scene> all_scenes();

}  // namespace sheaf::fault
