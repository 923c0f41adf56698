#pragma once

#include <optional>
#include <string>
#include <vector>

#include "driver/marking_desk.h"

namespace sheaf {

/// A learner of a class as seen from one lesson.
struct RollEntry {
  enum class Has {
    lesson,        ///< it is theirs
    other_lesson,  ///< they have one of their own or of their group's
    other_step,    ///< they are at another step of the lesson's sequence
    nothing,       ///< not in the class on that day
  };
  const LearnerEntry* learner = nullptr;
  Has has = Has::lesson;
  /// What they have instead, as the class file says it.
  std::string instead;
};

/// The place of a step, given by number or name, in what a lesson's sequence
/// teaches, or -1.
int step_index(const Taught& taught, const std::string& number_or_name);

/// Whether a lesson is of a later step of its sequence than the learner's own,
/// where the class file gives one. The steps of another sequence say nothing.
bool is_beyond_step(const LearnerSettings& settings, const Taught& taught);

/// The lesson's name for the name of a file beside others: with its folder in
/// front where the class has another lesson of the same name.
std::string name_among_others(const ClassFile& class_file,
                              const FilePath& folder, const TaughtFile& lesson,
                              const Workspace& workspace,
                              const std::vector<std::string>& allowed_folders);

/// Says of each learner of a class, in its order, whether a lesson is theirs.
/// Who has a lesson by the class file (their own, their group's, the class's)
/// has that one alone; the others have whatever lesson is given out, but for
/// those whose step is another one than the lesson's. `folder` is that of the
/// class file. Without a day everyone counts as there.
std::vector<RollEntry> class_roll(
    const ClassFile& class_file, const FilePath& folder,
    const TaughtFile& lesson, const std::optional<Date>& day,
    const Workspace& workspace,
    const std::vector<std::string>& allowed_folders);

}  // namespace sheaf
