#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/diagnostics.h"
#include "base/length.h"
#include "base/value.h"
#include "input/key_note.h"
#include "input/learner_code.h"
#include "input/lesson.h"
#include "input/record_file.h"
#include "input/school_weeks.h"

namespace sheaf {

/// What may be different for one learner, one group or the whole class. What
/// was left out is empty or 0, with no span.
struct LearnerSettings {
  PlacedWord lesson;
  PlacedWord layout;
  PlacedWord sequence;
  Spanned<std::string> step;
  Spanned<int> amount{.value = 0};  ///< words of the list to work on
  Spanned<Length> line_size;        ///< x-height of the writing lines
  PlacedWord spacing;               ///< between letters: normal, wide, wider
  PlacedWord picture_names;         ///< said, numbered, left-out
  std::vector<PlacedWord> extra;    ///< kinds of sheets for extra practice
  std::vector<PlacedWord> review_words;
  /// How the learner speaks, for marking: an accent, sounds that are not told
  /// apart ("th/f"), and named ways of speaking. Unread: `speech_of` reads
  /// them.
  PlacedWord accent;
  std::vector<PlacedWord> confuses, speech;
};

struct LearnerEntry {
  /// Initials or another short code; never printed with more than itself.
  PlacedCode code;
  PlacedWord group;
  /// The first and the last day in the class; none where the file does not
  /// say.
  std::optional<Spanned<Date>> from, until;
  /// Letter sequences of a probe to aim at; 0 where the file does not say.
  Spanned<int> goal{.value = 0};
  LearnerSettings settings;

  bool is_here_on(const Date& day) const {
    return (!from || from->value <= day) && (!until || day <= until->value);
  }
};

struct GroupEntry {
  PlacedWord name;
  LearnerSettings settings;
};

/// A class file as it was written.
struct ClassFile {
  const SourceFile* file = nullptr;
  Spanned<std::string> title;
  LearnerSettings settings;
  std::vector<GroupEntry> groups;
  std::vector<LearnerEntry> learners;
  /// Outside of which no record can be; none where the file does not say.
  std::optional<SchoolYear> school_year;
  /// After how many weeks a pattern that went well comes back; empty
  /// where the file does not say.
  std::vector<int> review_weeks;
  /// A day of each week without school.
  std::vector<Date> no_school;
  /// Until when learners are to reach what they aim at in probes.
  std::optional<Spanned<Date>> goal_date;
};

/// Reads a class file. Reports what is wrong with its form; the result is to
/// be used only if no error stands. `file` must outlive it.
ClassFile read_class(const SourceFile& file, Diagnostics& diagnostics);

/// The keys of a learner, a group or the whole class.
std::vector<KeyNote> learner_keys();
/// Those that a learner has besides.
std::vector<KeyNote> learner_own_keys();
/// The keys that only the whole class has, but for its learners and groups.
std::vector<KeyNote> class_keys();

/// What holds for one learner: the learner's own settings, for the rest those
/// of the group, for the rest those of the class.
LearnerSettings settings_for(const ClassFile& class_file,
                             const LearnerEntry& learner);

}  // namespace sheaf
