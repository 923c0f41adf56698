#pragma once

namespace sheaf {

enum ExitCode : int {
  kDone = 0,              ///< done; warnings allowed
  kFaultsInFiles = 1,     ///< the teacher's files have errors
  kWrongCommandLine = 2,  ///< the command line cannot be understood
  kMachineFault = 3,      ///< the machine would not
  kInterrupted = 130,
};

}  // namespace sheaf
