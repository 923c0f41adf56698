#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "driver/marking_desk.h"
#include "input/class_lessons.h"
#include "marking/review_cards.h"
#include "marking/week_step.h"

namespace sheaf {

/// Learners whose lesson stands at one place of the class file: a group's, the
/// class's, or one learner's own. They go on together.
struct WeekUnit {
  std::string name;  ///< of the group; "class"; the learner's code
  std::vector<LearnerCode> codes;
  Span place;          ///< of the lesson's name in the class file
  std::string lesson;  ///< as it stands there
  const TaughtFile* taught = nullptr;
  std::optional<Date> written;  ///< the latest dictation of it; none so far
  WeekProposal proposal;
  /// The lesson that comes after it, as the class file would name it; empty
  /// where its folder has none.
  std::string next;
  const TaughtFile* next_taught = nullptr;
  /// The same patterns again with fresh words: the lesson's name, and its text
  /// where there is no such file yet.
  std::string again, again_text;
};

/// The units of a class in the order of its learners, each with what the
/// latest dictation of its lesson proposes. Learners without a lesson are left
/// out. `folder` is that of the class file; what is wrong with a lesson is
/// reported.
///
/// The next lesson is the one in the same folder whose step of the sequence
/// comes next; where the lesson has no step, the next by name. Fresh words are
/// those of the set (`set: 2`, 3, 4) that has fewest words of the lesson.
std::vector<WeekUnit> week_units(
    MarkingDesk& desk, Workspace& workspace, const ClassFile& class_file,
    const FilePath& folder, const std::vector<MarkedRecord>& records,
    const std::vector<std::string>& allowed_folders, Diagnostics& diagnostics);

/// The lesson that each of a unit's learners has in the coming week, if it
/// takes this step; without one, the unit keeps its lesson.
std::vector<ComingLesson> coming_lessons(const WeekUnit& unit,
                                         std::optional<WeekStep> step);

/// What a teacher decided, by the names of units.
using WeekDecisions = std::map<std::string, WeekStep>;

/// A class file for the week, with the lessons that have to be written first.
struct WeekFiles {
  std::string class_text;
  /// By name as the class file has it.
  std::map<std::string, std::string> lessons;
};

/// Puts decisions, else proposals, into the class file; units that have neither
/// keep their lesson. What stands in the way comes back in `fault`, and nothing
/// is to be written then.
std::optional<WeekFiles> week_files(const ClassFile& class_file,
                                    const std::vector<WeekUnit>& units,
                                    const WeekDecisions& decisions,
                                    std::string& fault);

}  // namespace sheaf
