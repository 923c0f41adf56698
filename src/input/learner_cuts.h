#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/value.h"
#include "input/learner_code.h"

namespace sheaf {

/// What a class or record file has of one learner, and where any codes stand.
struct LearnerCuts {
  /// What goes, in the file's order; none overlaps another.
  std::vector<Span> cuts;
  /// Where codes stand that name learners, whosever they are.
  std::vector<Span> codes;
  /// Nothing of the file would be left.
  bool all = false;
};

/// Whether a text is the code. Capital and small letters are the same, and
/// `all`, which stands for everyone, is nobody's code.
bool is_same_code(std::string_view text, const LearnerCode& code);

/// Finds a learner in the keys of a class or record file: the entries under
/// `wrong`, `written`, `writing` and `learners`, and the code in lists of
/// codes, in each record where there are several. A key that has nothing left
/// goes too, and so does a record. `source` is the file's text as
/// `check_raw_text` gives it.
LearnerCuts learner_cuts(const SourceFile& file, std::string_view source,
                         const Value& keys, const LearnerCode& code);

/// What the keys of a class or record file say without a learner, in a form to
/// compare: a file without its cuts says the same with and without the code,
/// and what the whole file said without it.
std::string said_without(const Value& keys, const LearnerCode& code);

}  // namespace sheaf
