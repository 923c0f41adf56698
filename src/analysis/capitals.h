#pragma once

#include "base/diagnostics.h"
#include "input/lesson.h"
#include "phonics/phonics.h"

namespace sheaf {

/// Writes words of the lesson's lists that have capitals as they are written
/// inside a sentence: Ship and SHOP are ship and shop. A word that may be a
/// name stays as it is (Josh, though a list has a verb josh), and so does what
/// nobody knows. A note says which were put right.
void put_capitals_right(Lesson& lesson, const Phonics& phonics,
                        Diagnostics& diagnostics);

/// Whether a word is one that everybody writes small, whatever its first
/// letter.
bool is_common_word(std::string_view word, const Phonics& phonics);

}  // namespace sheaf
