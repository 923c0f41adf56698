#pragma once

#include <string>
#include <string_view>

#include "sheets/sheet.h"

namespace sheaf {

/// Learners of a class who share the teacher's pages may have words to review
/// that are theirs alone (`AnalyzedLesson::own_words`). They stand in one
/// table, and the script and the key speak of it.

inline constexpr std::string_view kOwnWordsTitle = "Who writes which words";

bool has_own_words(const SheetInput& in);

/// The number of a sentence to dictate on the learners' pages, where their own
/// words come before it; empty where it is not the same for all of them.
std::string sentence_number(const SheetInput& in, std::size_t words_of_all,
                            std::size_t sentence);

/// What a step of the script says of them: "words 1 and 2 of each learner's
/// own", and of the end of a dictation; empty where nobody has any there.
std::string dictate_own_words(const SheetInput& in, std::size_t words_of_all);

/// The table: a row for each learner, a column for each word in its order, in
/// the warm-up and, where that has others, at the end of the dictation. Below
/// it, the words that sound like another one, each in a sentence.
void add_own_words(const SheetInput& in, Composer& composer);

}  // namespace sheaf
