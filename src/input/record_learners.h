#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "input/fields.h"
#include "input/learner_code.h"
#include "input/learner_names.h"
#include "input/record_file.h"

namespace sheaf {

inline constexpr std::size_t kMostLearnersOfRecord = 100;

/// The learners under a key of a record. `read` takes a learner's code with
/// what stands after it, and adds the entries that it finds there. A code that
/// is none is reported without being shown: it could be a name.
template <typename T, typename Read>
std::vector<OfLearner<T>> read_learners(const Field& field, Diagnostics& d,
                                        Read read) {
  std::vector<OfLearner<T>> learners;
  if (field.value.kind != Value::Kind::keys) {
    report_wrong_kind(field, d);
    return learners;
  }
  for (const ValueEntry& entry : field.value.entries) {
    if (learners.size() == kMostLearnersOfRecord) {
      d.error(diagnostic::too_many, field.place,
              fmt::format("{} has more than {} learners after it",
                          as_written(field.key), kMostLearnersOfRecord),
              "make one record for each class");
      break;
    }
    OfLearner<T> learner;
    const auto code = LearnerCode::read(entry.key.value);
    if (!code) {
      report_bad_code(field.place, entry.key.span, d);
      continue;
    }
    learner.code = {*code, entry.key.span};
    const auto same = [&](const OfLearner<T>& other) {
      return other.code.value == learner.code.value;
    };
    const auto first = std::ranges::find_if(learners, same);
    if (first != learners.end()) {
      d.error(diagnostic::repeated_key, entry.key.span,
              fmt::format("{} is listed twice under {}",
                          as_written(code->text()), as_written(field.key)),
              "write what this learner wrote in one place; capital letters "
              "make no difference in a code")
          .remarks.push_back({first->code.span, "the first one"});
      continue;
    }
    read(entry, learner.entries);
    learners.push_back(std::move(learner));
  }
  return learners;
}

}  // namespace sheaf
