#pragma once

#include <string_view>
#include <vector>

#include "input/fields.h"
#include "input/record_file.h"

namespace sheaf {

/// Errors alone, under `wrong`. Of each learner one of these:
///     B7: {rain: rane, tail: .}      words with what was written for them
///     C3: fis, rus, wait=wate        attempts; a word only where it is needed
///     D1: [fis, rus]                 the same as a list
///     E5:                            everything was right
std::vector<OfLearner<Attempt>> read_wrong(const Field& field, Diagnostics& d);

/// Whole attempts, under `written`: each with the word it was meant for.
std::vector<OfLearner<Attempt>> read_written(const Field& field,
                                             Diagnostics& d);

/// The attempts of one learner with commas between them, each as it stands in
/// the list above. `key` names the place for messages.
std::vector<Attempt> read_attempt_list(const PlacedText& text,
                                       std::string_view key, Diagnostics& d);

}  // namespace sheaf
