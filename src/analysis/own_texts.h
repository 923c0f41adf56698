#pragma once

#include "analysis/analyzed_lesson.h"
#include "base/diagnostics.h"

namespace sheaf {

/// Which texts of a lesson the teacher wrote; Sheaf chose the others.
struct OwnTexts {
  bool sentences = true;
  bool dictate_sentences = true;
  bool passage = true;
};

/// Tells of what a teacher may want to look at again in sentences of their own:
/// two sentences with only a comma between them, a small letter where a
/// capital belongs, a passage that ends without a mark, and, as a note, a
/// sentence that is long for the group.
///
/// Long is (common practice, no source): more than 9 words in a sentence to
/// dictate, more than 16 in one to read, more than 12 in one for a group that
/// was taught fewer than 30 patterns, and more than 24 in a passage, where the
/// story carries a reader on.
void report_own_texts(const AnalyzedLesson& lesson, const OwnTexts& own,
                      Diagnostics& diagnostics);

}  // namespace sheaf
