#pragma once

#include <string>
#include <vector>

#include "driver/requests.h"
#include "files/files.h"

namespace sheaf {

/// A teacher's file with everything put in that is certain.
struct MendedFile {
  struct Mend {
    int line = 0;           ///< from 1; no mend adds a line or takes one out
    std::string label;      ///< "Ship is now ship"
    std::string new_error;  ///< of one that was left: what it would bring
  };
  /// The bytes of the file as they were read, and as they should be.
  std::string before, after;
  std::vector<Mend> done;  ///< by line
  std::vector<Mend> left;
};

/// Puts in what is certain, reads the result, and goes on until nothing certain
/// is left, ten times at most. Nothing is written: each try is a text in memory
/// over `files`. A fix that brings an error is left out. An error is one that
/// it brings if it was not there before and speaks of a line that was changed;
/// in a file that had no error, any error is. (Errors hide others: a lesson
/// whose form is wrong is not looked at any further.) Throws MachineError.
MendedFile mend_file(const Files& files, const FilePath& shipped,
                     const LessonRequest& request, const std::string& path);

}  // namespace sheaf
