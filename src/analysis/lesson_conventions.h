#pragma once

#include "base/diagnostics.h"
#include "input/lesson.h"
#include "input/sequence.h"
#include "phonics/conventions.h"

namespace sheaf {

/// How a lesson counts, says and writes sounds. The lesson outdoes its
/// sequence, and that the layout: the accent first, then what each file says
/// under `conventions`, presets before single switches. Reports names and
/// values that are none.
Conventions lesson_conventions(const Lesson& lesson, Diagnostics& diagnostics);

/// Puts what a sequence says of counting behind what the lesson inherits from
/// its layout.
void inherit_conventions(const SequenceFile& sequence, Lesson& lesson);

}  // namespace sheaf
