#pragma once

#include <map>
#include <string>
#include <vector>

#include "fault/faults.h"

namespace sheaf::fault {

/// The files below a folder with their bytes; folders end with a slash and have
/// none.
using Files = std::map<std::string, std::string>;
Files files_in(const std::string& folder);
/// Makes the files below a folder these and no others.
void restore(const std::string& folder, const Files& files);

/// How a run of the program ended.
struct Ended {
  int code = -1;   ///< exit code; -1 where it was ended by a signal
  int signal = 0;  ///< that signal; SIGALRM where it went on for ever
  std::string out, err;
  long system_calls = 0, allocations = 0;
  Held held;                             ///< from when on it was held
  SystemCall failed = SystemCall::open;  ///< what failed first
};

/// What is run: a command line in a folder. For `watch`, which never ends, a
/// file is saved when it waits for the first time, and it ends when it waits
/// for the second; its code is 3 then where the pages could not be made.
struct Command {
  std::vector<std::string> arguments;
  std::string saved_file, saved_text;
  std::string typed;  ///< on standard input
};

/// Runs the program's verb in a process of its own, in a folder, with a fault.
Ended run_once(const Command& command, const std::string& folder,
               const Point& point);

/// Runs it once without a fault, and in the middle of that tries how it ends
/// with a fault at each of these points: what comes before a point is done once
/// for all faults there, and what comes before the first file is written once
/// for all later ones. A process of its own meets each; `tried` hears of it,
/// and then the files are put back to what they were. Nothing is held to
/// anything meanwhile, so points before that are not for here, nor are verbs
/// with threads or with a queue of news about files. Gives the points that the
/// run did not come to.
std::vector<Point> run_trials(const Command& command, const std::string& folder,
                              const std::vector<Point>& points,
                              void (*tried)(const Point& point,
                                            const Ended& ended));

}  // namespace sheaf::fault
