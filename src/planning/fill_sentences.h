#pragma once

#include <vector>

#include "base/diagnostics.h"
#include "planning/fill_lesson.h"

namespace sheaf {

/// The part of `fill_lesson` that is about sentences and passages. `of_itself`
/// says whether sentences are chosen without being asked for: where the lesson
/// leaves its words to Sheaf as well. A passage is chosen where `passage` says
/// how many words it is to have. Runs when the words are there.
std::vector<FilledKey> fill_sentences(Lesson& lesson,
                                      const SearchGround& source,
                                      const std::vector<PatternId>& patterns,
                                      bool of_itself, Diagnostics& diagnostics);

}  // namespace sheaf
