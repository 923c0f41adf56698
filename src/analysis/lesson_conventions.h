#pragma once

#include "base/diagnostics.h"
#include "input/lesson.h"
#include "phonics/conventions.h"

namespace sheaf {

/// How a lesson counts, says and writes sounds: its `accent`, then the switches
/// under its `conventions`. Reports names and values that are none.
Conventions lesson_conventions(const Lesson& lesson, Diagnostics& diagnostics);

}  // namespace sheaf
