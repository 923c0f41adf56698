#pragma once

#include <vector>

#include "cli/record_text.h"
#include "driver/marking_desk.h"
#include "files/path.h"
#include "input/class_file.h"
#include "input/learner_code.h"

namespace sheaf {

/// What is needed to take down one day's errors. All of it must outlive the
/// entering.
struct EnterRequest {
  MarkingDesk& desk;
  const TaughtFile& lesson;
  const ClassFile& pupils;
  RecordHead head;
  std::vector<LearnerCode> codes;  ///< who is asked for, in this order
  /// The others are in a record already: these go into one beside it.
  bool others_there = false;
};

/// Reads errors from standard input, a line a learner, shows each line's
/// marking at once, and writes the record to `target` when all are done, the
/// input ends or an interrupt comes; nothing that was typed is lost. A file
/// that is there by then is left alone, and a free name beside it taken. Gives
/// back the exit code.
int enter_record(const EnterRequest& request, const FilePath& target);

}  // namespace sheaf
