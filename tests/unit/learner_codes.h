#pragma once

#include "input/learner_code.h"

namespace sheaf {

/// A learner's code in a test; nobody where the text is none.
inline LearnerCode code_of(std::string_view text) {
  return LearnerCode::read(text).value_or(LearnerCode());
}

}  // namespace sheaf
