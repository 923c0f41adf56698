#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "driver/marking_desk.h"

namespace sheaf {

/// Learners of one group of the class who were taught the same, with all that
/// is known of it.
struct TaughtSet {
  std::string group;               ///< its name in the class file; empty: none
  std::vector<LearnerCode> codes;  ///< in the order of the class
  /// What they can read: everything up to and with their own step, where the
  /// class file gives one; else up to the lesson of their group, with its step
  /// only once it was dictated; else up to the latest lesson of their records.
  /// Nothing is known where none of these has a sequence.
  Taught taught;
  /// The patterns of the lessons that their records name, in the order of
  /// teaching, but for lessons beyond their own step.
  std::vector<PatternId> recorded;
  /// Words of these lessons and of all that was dictated to any of them, in
  /// lower case.
  std::set<std::string, std::less<>> met;
  /// Of these, the words of lessons by their patterns, as they are written.
  std::map<PatternId, std::vector<std::string>> practised;
  Conventions spoken;  ///< the accent of their latest lesson

  bool has(const LearnerCode& code) const;
};

/// Sets the learners of a class apart by group, step and what their records
/// say was taught to them, in the order of the class. `folder` is that of the
/// class file; lessons that it names and that cannot be read say nothing.
std::vector<TaughtSet> taught_sets(
    MarkingDesk& desk, Workspace& workspace, const ClassFile& class_file,
    const FilePath& folder, const std::vector<MarkedRecord>& records,
    const std::vector<std::string>& allowed_folders);

}  // namespace sheaf
