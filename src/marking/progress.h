#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/options.h"
#include "input/learner_code.h"
#include "marking/scores.h"

namespace sheaf {

/// When a pattern counts as learned. All are settable (`progress_option_table`)
/// because research agrees on no number; what is known stands beside each.
struct ProgressRules {
  /// Go on from 80%: the rule of a published study of teaching with dyslexia
  /// (van Rijthoven, thesis, chapter 3). Criteria in use range from 80 to 100%
  /// (an article for teachers that cites the research; low weight).
  int go_on_percent = 80;
  /// One miss in twelve is about the 90% that is cited most, "in three sessions
  /// on end" (the same article); hence three days.
  int secure_misses = 1;
  int secure_chances = 12;
  int secure_days = 3;
  /// Words never practised show the pattern and not the list. That words
  /// carried over to dictated sentences is known (Bogart 1998); four is ours.
  int secure_new_words = 4;
  /// Two weeks: gaps must grow with the time that it shall last (Cepeda et al.
  /// 2006, 2008); the number is ours.
  int secure_later_days = 14;
  /// After a slip, so many right in a row on later days are secure again. Ours.
  int secure_again = 4;
  /// Days that are "the week" for going on.
  int week_days = 7;
};

/// The rules as options of a file, for checking and for the manual.
OptionTable progress_option_table();
ProgressRules progress_rules(const OptionValues& values);

enum class ProgressState : std::uint8_t {
  practising,
  go_on,
  secure,
  check_again,  ///< was secure, then slipped
};
std::string_view state_name(ProgressState state);

/// What a lesson taught, so that records that name it can be read.
struct TaughtLesson {
  std::string name;  ///< as records name it
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
  /// The first day of a lesson about it that lists the learner.
  Date taught;
  Date last;
  /// Since when it has been secure without a slip, and when it last slipped.
  std::optional<Date> secure_since, slipped_on;
  Share all, week, new_words, later, writing;
  /// Before it was taught, and in nothing else: was it known already?
  Share before;
  Share listed;  ///< words that were practised, in dictation
  int days = 0;
  std::vector<ProgressPoint> points;
  /// What it rests on and what is missing, lower case, no full stop.
  std::string why;
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
/// absent or not. Checks and counts of writing teach nothing. A word is one
/// chance a day, taken if it was right each time (`chances_for`), and new once:
/// on the first day that the learner writes it, unless it was practised before.
std::vector<LearnerProgress> class_progress(
    std::span<const SessionResult> sessions,
    std::span<const TaughtLesson> lessons, const PatternCatalogue& catalogue,
    const ProgressRules& rules = {});

/// What a learner showed of patterns before they were taught, which counts for
/// nothing else: "ai 3/4; not taught yet: sh 8/8 (100%)". Empty where there is
/// nothing.
std::string known_before_text(const LearnerProgress& learner,
                              const PatternCatalogue& catalogue);
inline constexpr std::string_view kKnownBefore =
    "Before teaching (already known?)";

}  // namespace sheaf
