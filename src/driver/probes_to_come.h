#pragma once

#include <string>
#include <vector>

#include "driver/marking_desk.h"
#include "input/class_file.h"

namespace sheaf {

/// Words that nobody is to practise for now: a probe asks words of no lesson,
/// so those of its forms are kept back until a form was given. Forms are looked
/// for beside the class file, the sequences and the lessons of its learners and
/// of the records, and in a folder `probes` beside each of these.
class ProbesToCome {
 public:
  /// `folder` is that of the class file. Files that cannot be read as lessons
  /// say nothing here. `workspace` and `records` must outlive it.
  ProbesToCome(MarkingDesk& desk, Workspace& workspace,
               const ClassFile& class_file, const FilePath& folder,
               const std::vector<MarkedRecord>& records,
               const std::vector<std::string>& allowed_folders);

  /// The words of all forms that no record names one of these learners in, each
  /// once, as they are written.
  std::vector<std::string> words(const std::vector<LearnerCode>& codes) const;

 private:
  struct Form {
    FilePath path;
    std::vector<std::string> words;
  };
  void add_forms(const FilePath& folder);
  bool was_given(const Form& form, const std::vector<LearnerCode>& codes) const;

  Workspace& workspace_;
  const std::vector<MarkedRecord>& records_;
  std::vector<Form> forms_;
};

}  // namespace sheaf
