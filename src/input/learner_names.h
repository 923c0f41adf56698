#pragma once

#include <set>

#include "base/diagnostics.h"
#include "base/value.h"

namespace sheaf {

/// Reports a learner's code that is none, without showing it: it may be a
/// name. `place` is what the message points at where that is another line.
void report_bad_code(const Span& place, const Span& code,
                     Diagnostics& diagnostics);

/// The lines of a class or record file where something else stands where a
/// learner's code should. What is shown of such a line could be a name.
std::set<int> lines_with_names(const Value& keys);

/// Passes the messages about a file on. Those of `lines`, or of a line with a
/// key that could be a name, say nothing of what stands there.
void pass_on_without_names(const Diagnostics& found, std::set<int> lines,
                           Diagnostics& diagnostics);

/// Passes on what is wrong with the form of a class or record file: the place,
/// and nothing of what stands there, which could be a name.
void pass_on_form_faults(const Diagnostics& found, Diagnostics& diagnostics);

}  // namespace sheaf
