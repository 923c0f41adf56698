#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// A dictated word that sounds like another one: nobody can tell which is meant
/// before it is said in a sentence.
struct InSentence {
  /// The other words, the commonest first; at least one.
  std::vector<std::string> alikes;
  /// One of the lesson's own sentences that has the word, the shortest of those
  /// to read, else of those to dictate; empty where none has it.
  std::string sentence;

  /// "not knight", "not scent or sent".
  std::string not_these() const;
};

/// Nothing where a word has no homophone, in the lesson's accent, that learners
/// meet.
std::optional<InSentence> in_sentence(const AnalyzedLesson& lesson,
                                      const AnalyzedWord& word);

/// The words among these that have one, each with its sentence or with the
/// words that are not meant, for a line of text; empty where none has.
std::string said_in_sentences(const AnalyzedLesson& lesson,
                              std::span<const AnalyzedWord> words);

}  // namespace sheaf
