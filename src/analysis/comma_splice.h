#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

#include "phonics/phonics.h"

namespace sheaf {

/// A comma that joins two sentences by itself: "The dog ran, it was wet."
struct CommaSplice {
  std::size_t comma = 0;   ///< a byte of the text
  std::size_t second = 0;  ///< where the second sentence begins
};

/// The first such comma of one sentence, if it is a clear one. Both sides have
/// to begin with a subject and its verb (common practice, no source). Where
/// the comma may be right, nothing is said: after when, if, because and their
/// like, in lists, beside quotation marks, before a tag (isn't it), around a
/// remark (I think), after so and such, in "not this, that" and in questions.
std::optional<CommaSplice> find_comma_splice(std::string_view sentence,
                                             const Phonics& phonics);

}  // namespace sheaf
