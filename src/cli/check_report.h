#pragma once

#include "driver/sort_words.h"
#include "driver/workspace.h"

namespace sheaf {

/// What `sheaf check` says of a lesson beyond its words, added to `out`.

/// How a word can be read: "decodable", "by sight", or why not yet; empty
/// where nothing says what was taught.
std::string standing_text(const AnalyzedLesson& lesson,
                          const AnalyzedWord& word);

/// Each sentence with its pattern words and words that are not taught yet, with
/// others to put in their place; those of the teacher's own with counts. Then
/// the words of the list that no sentence uses.
void print_sentences(std::string& out, const AnalyzedLesson& lesson,
                     const OwnTexts& own);

/// Words of the whole lesson by how they can be read. Together they are none
/// where nothing says what was taught.
struct WordShare {
  int decodable = 0, sight = 0, not_yet = 0;

  int all() const { return decodable + sight + not_yet; }
  /// Words that can be read, rounded down, so that 100 means all; there must
  /// be some.
  int percent() const { return (decodable + sight) * 100 / all(); }
};
WordShare word_share(const AnalyzedLesson& lesson);

/// How many words of the whole lesson can be read, and the share.
void print_share(std::string& out, const AnalyzedLesson& lesson);

/// The words that Sheaf chose, as lines to paste into the lesson.
void print_filled(std::string& out, const PreparedLesson& lesson);

}  // namespace sheaf
