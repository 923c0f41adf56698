#pragma once

#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "input/lesson.h"
#include "planning/word_search.h"

namespace sheaf {

/// Words that Sheaf chose for one key of a lesson, to be shown in a form that
/// can be pasted into the lesson.
struct FilledKey {
  std::string_view key;
  /// Words, sentences or the paragraphs of a passage.
  std::vector<std::string> words;
};

/// Puts words into a lesson that leaves them to Sheaf, as if the teacher had
/// written them where its pattern is named:
/// - `words`, as many as `pick` says (10 where it says nothing), an equal part
///   for each pattern; for `set: 2` and later others than for the sets before;
/// - `dictate-words`: 4 of the list, 4 new ones with the pattern, and as many
///   review words as `review` says (2 where it says nothing);
/// - `sort-words`, where every pattern is about -ed: words that fill up its
///   three sounds to 4 each;
/// - `sentences` (6), `dictate-sentences` (3) and a `passage`, where a number
///   stands in their place or the words are left to Sheaf as well: all of them
///   readable, no sentence used in the four weeks before; no passage where
///   there is none for the step;
/// - review words that `review` asks for behind dictate-words that are given.
/// Review words are new words of the patterns that are due (see
/// `Taught::due_steps`). Reports what could not be found.
std::vector<FilledKey> fill_lesson(Lesson& lesson, const SearchGround& source,
                                   Diagnostics& diagnostics);

}  // namespace sheaf
