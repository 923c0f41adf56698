#pragma once

#include <string_view>
#include <vector>

#include "base/source.h"
#include "base/value.h"
#include "input/file_kind.h"
#include "input/learner_code.h"

namespace sheaf {

/// Whether a text names a learner by code, as a word of its own: in capital or
/// small letters where the code has a figure, else as it is written, since *it*
/// is a word and IT may be a learner.
bool names_code(std::string_view text, const LearnerCode& code);

/// Where in a file that Sheaf has read the code is named besides the places
/// that are known: in a remark, a note, the name of a file. `known` are those
/// places, in any order; the result is where the lines begin that name it.
/// `kind` is what the file is. In words to read or write, a code without a
/// figure is not looked for: *A* is a word.
std::vector<std::uint32_t> lines_with_code(const SourceFile& file,
                                           const Value& keys, FileKind kind,
                                           const std::vector<Span>& known,
                                           const LearnerCode& code);

}  // namespace sheaf
