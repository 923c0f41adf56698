#pragma once

#include <string>
#include <vector>

#include "marking/scores.h"
#include "marking/sessions.h"

namespace sheaf {

struct ErrorExample {
  std::string target, written;
  Date date;
};

/// What went wrong in one way, how often, and some words that show it.
struct CauseExamples {
  Cause cause = Cause::none;
  int count = 0;  ///< graphemes and extra letters, not words
  std::vector<ErrorExample> examples;
};

/// A learner's errors by cause, the commonest first; of each cause up to `most`
/// words, each once, the latest first. Words of probes are left out: nobody is
/// to practise them. Nor do blanks count, and words that were missing, split or
/// run together.
std::vector<CauseExamples> error_examples(const Sessions& sessions,
                                          const LearnerCode& code,
                                          std::size_t most);

}  // namespace sheaf
