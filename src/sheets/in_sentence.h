#pragma once

#include <span>
#include <string>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "layout/text_block.h"

namespace sheaf {

/// What a dictated word is said in, so that learners know which word is meant.
struct InSentence {
  /// Other words that sound the same in the lesson's accent, the commonest
  /// first: only a sentence tells which is meant. Mostly none.
  std::vector<std::string> alikes;
  /// One of the lesson's own sentences that has the word, the shortest of those
  /// to read, else of those to dictate, else the one that comes with Sheaf;
  /// empty where there is none.
  std::string sentence;

  /// "not knight", "not scent or sent"; only where some sound alike.
  std::string not_these() const;
};

InSentence in_sentence(const AnalyzedLesson& lesson, const AnalyzedWord& word);
/// Only the words that sound like it, without looking for a sentence.
InSentence only_alikes(const AnalyzedLesson& lesson, const AnalyzedWord& word);

/// The same of several, in their order: each in a sentence of its own, as far
/// as there are others, and none of those that are `taken` already.
std::vector<InSentence> in_sentences(const AnalyzedLesson& lesson,
                                     std::span<const AnalyzedWord> words,
                                     std::vector<std::string> taken = {});

/// Whether each of some words has a sentence, or none has.
enum class HaveSentences { all, some, none };
HaveSentences have_sentences(std::span<const InSentence> words);

/// A word for the teacher to say, in bold, with those that are not meant and
/// its sentence: "night (not knight): I sleep at night."
std::vector<TextPiece> said_pieces(const InSentence& said,
                                   const AnalyzedWord& word,
                                   const TextStyle& plain,
                                   const TextStyle& strong);

}  // namespace sheaf
