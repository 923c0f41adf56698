#pragma once

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// What can be said of a lesson's words while errors in other keys keep it from
/// being analyzed: the words that nobody knows, as `analyze` says it. So a
/// teacher hears of a misspelt word and of a misspelt key in one run.
///
/// Says nothing where the words themselves may have been misread: where the
/// form of the file is broken, or where a key that nobody knows may have been
/// meant for `split`, which says how words that nobody knows are made up.
/// `lesson` is as `read_lesson` gave it, with all errors in `diagnostics`.
void report_words_alone(const Lesson& lesson, const Phonics& phonics,
                        Diagnostics& diagnostics, WordTest may_suggest = {});

}  // namespace sheaf
