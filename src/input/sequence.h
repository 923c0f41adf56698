#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/diagnostics.h"
#include "base/value.h"
#include "input/key_note.h"
#include "input/lesson.h"

namespace sheaf {

/// One step of a sequence: what is taught in it.
struct SequenceStep {
  /// As the file counts, from 1; without a number, one more than the last.
  Spanned<int> number{.value = 0};
  PlacedWord name;                   ///< empty where the step has a number only
  std::vector<PlacedWord> patterns;  ///< none in a step for practice
  std::vector<PlacedWord> sight_words;
  /// Words that stand for the sounds of its patterns from then on.
  std::vector<PlacedWord> key_words;
  std::vector<LessonLine> note;
  Span span;
};

/// A sequence file as it was written: steps in the order of teaching. Names of
/// patterns still have to be looked up.
struct SequenceFile {
  const SourceFile* file = nullptr;
  Spanned<std::string> title;
  /// Sight words and patterns known before the first step.
  std::vector<PlacedWord> sight_words;
  std::vector<PlacedWord> taught;
  std::vector<PlacedWord> key_words;  ///< of those, and of single consonants
  /// Switch and value, unread.
  std::vector<std::pair<PlacedWord, PlacedWord>> conventions;
  PlacedWord accent;
  /// After how many taught weeks a pattern comes back, growing; empty where
  /// the file does not say.
  std::vector<int> review_weeks;
  std::vector<LessonLine> note;
  std::vector<SequenceStep> steps;
};

/// Reads a sequence file. Reports what is wrong with its form; the result is
/// to be used only if no error stands. `file` must outlive it.
SequenceFile read_sequence(const SourceFile& file, Diagnostics& diagnostics);

/// The same of a sequence whose keys stand in `file`, a lesson, under
/// `sequence:`.
SequenceFile read_sequence_keys(const SourceFile& file, const Value& keys,
                                Diagnostics& diagnostics);

/// The keys of a sequence file, and those of one step.
std::vector<KeyNote> sequence_keys();
std::vector<KeyNote> step_keys();

/// The step with this number or name (case does not matter); null if none.
const SequenceStep* find_step(const SequenceFile& sequence,
                              std::string_view number_or_name);

}  // namespace sheaf
