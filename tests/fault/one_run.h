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

/// Runs it once without a fault and tries, at each allocation that `chosen`
/// names until a file is begun, in a process of its own in `other_folder`, how
/// the run ends if that one fails. `tried` hears of each; the folder is for it
/// to put right. Gives the number of the first allocation that was not tried.
struct Trials {
  bool (*chosen)(long number);
  void (*tried)(const Point& point, const Ended& ended);
};
long run_trials(const Command& command, const std::string& folder,
                const std::string& other_folder, const Trials& trials);

}  // namespace sheaf::fault
