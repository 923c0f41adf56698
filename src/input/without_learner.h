#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostics.h"
#include "input/learner_code.h"

namespace sheaf {

/// A file of a teacher's without one learner.
struct WithoutLearner {
  /// The whole text; all that is not the learner's is as it was, byte for
  /// byte.
  std::string text;
  /// What was taken out, in the file's order: spans of the old text.
  std::vector<Span> removed;
  /// A line that still has the code, in a remark or a note: its number in the
  /// old text and in the new one (from 1).
  struct Named {
    int before, after;
  };
  std::vector<Named> still_named;
  /// How many lines more, where there are too many to be told.
  int more_named = 0;
  /// The class files that a record names.
  std::vector<std::string> classes;
  /// Without this learner nothing would be left that such a file needs: `text`
  /// is not to be written.
  bool nothing_left = false;
};

/// Takes a learner out of a record or class file: the entries under `wrong`,
/// `written`, `writing` and `learners`, and the code in lists of codes; capital
/// and small letters are the same. A key that has nothing left goes too. Of a
/// file of another kind, or one with nothing but remarks, nothing is taken out,
/// and it is said where it has the code. Nothing comes back where the file
/// cannot be read as any kind, or is a record or class with faults; these are
/// reported then.
std::optional<WithoutLearner> without_learner(const SourceFile& file,
                                              const LearnerCode& code,
                                              Diagnostics& diagnostics);

/// Reports a file of which nothing would be left.
void report_nothing_left(const WithoutLearner& without,
                         Diagnostics& diagnostics);

}  // namespace sheaf
