#pragma once

#include "analysis/analyzed_lesson.h"
#include "base/diagnostics.h"

namespace sheaf {

/// Reports each word that was not taught yet, once, at its first place: a
/// warning, or an error where the lesson is strict.
void report_standings(const AnalyzedLesson& lesson, Diagnostics& diagnostics);

/// Reports sentences to dictate that learners have read the same week: they
/// would be written from memory of the page.
void report_read_sentences(const AnalyzedLesson& lesson,
                           Diagnostics& diagnostics);

/// Why a word is not decodable yet, as the end of a sentence: "oa as /oh/ is
/// taught in step 14".
std::string why_not_yet(const AnalyzedLesson& lesson, const AnalyzedWord& word);

/// Calls with every word of a lesson: its list, then the sentences to read,
/// the words and the sentences to dictate, and the passage.
void each_word(const AnalyzedLesson& lesson,
               const std::function<void(const AnalyzedWord&)>& call);

}  // namespace sheaf
