#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "driver/check_sentences.h"
#include "driver/class_job.h"
#include "driver/record_targets.h"
#include "driver/workspace.h"
#include "input/file_kind.h"

namespace sheaf {

/// A lesson, a class, a sequence, a record or a list of sentences, taken as far
/// as its errors let it, and all there is to say of it. The messages point into
/// texts that the workspace keeps. Of the parts, that of the file's kind is
/// there, where it could be read.
struct CheckedFile {
  FileKind kind = FileKind::lesson;
  Diagnostics diagnostics;
  std::unique_ptr<PreparedLesson> lesson;
  std::unique_ptr<ClassJob> job;   ///< of a class
  std::vector<std::size_t> pages;  ///< of each learner in it
  std::optional<Taught> taught;    ///< of a sequence: all its steps
  std::optional<SentenceReport> sentences;
  std::vector<RecordReport> records;  ///< of a file of records, each

  bool good() const { return !diagnostics.has_errors(); }
};

/// What is none of the others is read as a lesson. Throws MachineError.
CheckedFile check_file(Workspace& workspace, const LessonRequest& request,
                       const std::string& path);

}  // namespace sheaf
