#pragma once

#include <compare>
#include <string>
#include <utility>
#include <vector>

#include "base/diagnostics.h"
#include "base/value.h"
#include "input/key_note.h"
#include "input/learner_code.h"
#include "input/lesson.h"

namespace sheaf {

/// A day of the Gregorian calendar.
struct Date {
  int year = 0, month = 0, day = 0;
  friend constexpr auto operator<=>(const Date&, const Date&) = default;
};

/// What a learner wrote for one word or sentence.
struct Attempt {
  /// Empty where the record lists the attempt alone: then the dictated word
  /// that it is nearest to is looked for.
  PlacedText target;
  PlacedText written;  ///< empty where it was left blank
  bool blank = false;  ///< the record says `.`

  bool names_target() const { return !target.text().empty(); }
};

/// How often a pattern came up in free writing, and how often it was right.
struct Tally {
  PlacedWord pattern;
  int right = 0;
  int chances = 0;
  Span span;
};

template <typename T>
struct OfLearner {
  PlacedCode code;
  std::vector<T> entries;
};

/// One day's writing of a class. Only what the file says: who was right in
/// what is worked out from `marked`, `absent` and the lesson.
struct Record {
  enum class Kind {
    dictation,
    transfer,
    retention,
    writing,
    probe,  ///< a short list as others of its set, to see growth
  };

  Spanned<Date> date;
  PlacedWord lesson;
  Spanned<Kind> kind{.value = Kind::dictation};
  PlacedWord class_file;
  /// `marked: all`: everyone whom the record lists was marked. `marked: not
  /// yet`: nobody was, and the record counts for nobody.
  bool marked_all = false;
  bool not_yet = false;
  Span marked_span;                ///< what stands after `marked`, if anything
  std::vector<PlacedCode> marked;  ///< else these learners
  std::vector<PlacedCode> absent;
  /// Errors alone: what is not here was right, for those who were marked.
  std::vector<OfLearner<Attempt>> wrong;
  /// Whole attempts: nothing is known of what is not here.
  std::vector<OfLearner<Attempt>> written;
  std::vector<OfLearner<Tally>> writing;
  /// Of a placement check: at which step part two began, by learner.
  std::vector<std::pair<PlacedCode, Spanned<int>>> part_two;
  std::vector<LessonLine> note;
  Span span;

  /// Whether an error, an attempt or a count is written for anyone.
  bool has_entries() const;
  /// Where the record first lists a learner, absent or not; null where it does
  /// not.
  const PlacedCode* find_code(const LearnerCode& code) const;
};

/// A record file as it was written: one record, or several under `records:`,
/// which take what they leave out from the file's own keys.
struct RecordFile {
  const SourceFile* file = nullptr;
  std::vector<Record> records;
};

/// Reads a record file. Reports what is wrong with its form; the result is to
/// be used only if no error stands. `file` must outlive it.
RecordFile read_record(const SourceFile& file, Diagnostics& diagnostics);

/// The keys of a record, for manuals and editors.
std::vector<KeyNote> record_keys();

/// A date as in 2026-03-12; nothing where there is no such day.
std::optional<Date> read_date(std::string_view text);
/// The same again: "2026-03-12".
std::string date_text(const Date& date);

}  // namespace sheaf
