#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostics.h"

namespace sheaf {

/// A record or class file without one learner.
struct WithoutLearner {
  /// The whole text; all that is not the learner's is as it was, byte for
  /// byte.
  std::string text;
  /// What was taken out, in the file's order: spans of the old text.
  std::vector<Span> removed;
  /// Lines that still have the code, in a comment or a note (from 1).
  std::vector<int> still_named;
};

/// Takes a learner out of a record or class file: the entries under `wrong`,
/// `written`, `writing` and `learners`, and the code in lists of codes. A key
/// that has nothing left goes too. Nothing comes back where the file is of
/// another kind or has faults, which are reported then.
std::optional<WithoutLearner> without_learner(const SourceFile& file,
                                              std::string_view code,
                                              Diagnostics& diagnostics);

}  // namespace sheaf
