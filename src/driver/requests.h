#pragma once

#include <string>
#include <vector>

#include "input/learner_code.h"

namespace sheaf {

/// What whoever calls may ask for beyond what a lesson says of itself.
struct LessonRequest {
  std::string layout;             ///< a name or a file; empty: the lesson's own
  std::string paper;              ///< empty: the layout's own
  std::vector<std::string> only;  ///< these sheets; none: all of the layout
  /// Folders besides the lesson's in which files that it names may be.
  std::vector<std::string> allowed_folders;
  /// Words that are not chosen for it, nor their forms with an ending.
  std::vector<std::string> leave_out = {};
};

/// The same of a class.
struct ClassRequest {
  LessonRequest lesson;
  std::string lesson_file;  ///< for learners who have none of their own
  std::vector<LearnerCode> learners;  ///< none: all of the class
  /// A file or folder of records, for teacher's pages that say how it went;
  /// empty: none are read.
  std::string records = {};
};

/// How records are read.
struct MarkingRequest {
  std::vector<std::string> allowed_folders;
  std::string accent;                    ///< of the learners; empty: American
  std::vector<std::string> confusions;   ///< sounds not told apart: "th/f"
  int workers = 1;                       ///< threads that share the records
  std::vector<std::string> speech = {};  ///< ways of speaking: "th-f"
};

}  // namespace sheaf
