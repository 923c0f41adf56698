#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "input/learner_code.h"
#include "marking/progress_rules.h"
#include "marking/scores.h"
#include "marking/sessions.h"

namespace sheaf {

enum class ProgressState : std::uint8_t {
  practising,
  go_on,
  secure,
  check_again,  ///< was secure, then slipped or was not seen for long
};
std::string_view state_name(ProgressState state);

/// What a lesson taught, so that records that name it can be read.
struct TaughtLesson {
  std::string name;  ///< as `SessionResult::lesson` has it, one for each file
  std::vector<PatternId> patterns;
  /// The words that were practised: all others are new.
  std::vector<std::string> practised;
};

/// What one day showed of one pattern.
struct ProgressPoint {
  Date date;
  Record::Kind kind = Record::Kind::dictation;
  Share share;
  Share new_words;  ///< of these, words never practised
  ProgressState state = ProgressState::practising;  ///< after this day
};

struct PatternProgress {
  PatternId pattern = 0;
  ProgressState state = ProgressState::practising;
  /// The first day of a lesson about it that lists the learner, and that is not
  /// beyond the learner's own step.
  Date taught;
  Date last;
  /// Since when it has been secure, or when it last ceased to be.
  std::optional<Date> secure_since, slipped_on;
  /// Check again only because it was not seen for so long.
  bool unseen = false;
  /// The counts that the state rests on: the week for going on, else the latest
  /// days that have as many words as the rule for secure asks for.
  Share window;
  int window_days = 0;  ///< of a pattern that is secure or was
  Share all, week, new_words, later, writing;
  /// Before it was taught, and in nothing else: was it known already?
  Share before;
  Share listed;  ///< words that were practised, in dictation
  int days = 0;
  std::vector<ProgressPoint> points;
  /// What it rests on and what is missing, lower case, no full stop.
  std::string why;
  /// What is missing alone, for places where the counts stand beside it.
  std::string needed;
};

/// Whether the list looks known and the pattern not: 80% of the practised words
/// right, less than half of the new ones, three of each at least. The numbers
/// are ours.
bool by_heart(const PatternProgress& progress);

/// A day's score in letters and words, for the curve over the weeks.
struct SequencePoint {
  Date date;
  Record::Kind kind = Record::Kind::dictation;
  LetterSequences sequences;
  Share words;
};

/// What a learner showed of a pattern that was not taught to them, as far as
/// the records say.
struct UntaughtPattern {
  PatternId pattern = 0;
  Share share;
};

struct LearnerProgress {
  LearnerCode code;
  std::vector<PatternProgress> patterns;  ///< in the order of teaching
  /// Of the patterns of all lessons that were recorded.
  std::vector<UntaughtPattern> untaught;
  std::vector<SequencePoint> sequences;  ///< by date

  const PatternProgress* find(PatternId pattern) const;
};

/// Progress of every learner whom the sessions speak of, in the order of their
/// first mention. Sessions may come in any order. A pattern counts in every
/// session from the day it was taught to the learner, whatever that session's
/// lesson was: the first dictation of a lesson about it that lists the learner,
/// absent or not, unless the learner's own step comes before it. Checks and
/// counts of writing teach nothing. A word is one chance a day, taken if it was
/// right each time (`chances_for`), and new once: on the first day that the
/// learner writes it, unless it was practised before. States are those of the
/// day `as_of`, else of the latest session.
std::vector<LearnerProgress> class_progress(
    const Sessions& sessions, std::span<const TaughtLesson> lessons,
    const PatternCatalogue& catalogue, const ProgressRules& rules = {},
    std::optional<Date> as_of = {});

/// What a learner showed of patterns before they were taught, which counts for
/// nothing else: "ai 3/4; not taught yet: sh 8/8 (100%)". Empty where there is
/// nothing.
std::string known_before_text(const LearnerProgress& learner,
                              const PatternCatalogue& catalogue);
inline constexpr std::string_view kKnownBefore =
    "Before teaching (already known?)";

}  // namespace sheaf
