#pragma once

#include <string>
#include <vector>

#include "base/source.h"
#include "marking/free_writing.h"
#include "marking/mark_attempt.h"
#include "phonics/phonics.h"

namespace sheaf {

/// Results as JSON, for other programs.

/// A list with one object a word: `word`, `graphemes`, `phonemes` (IPA, as the
/// dictionary counts them), `sounds` (as taught, one a box), `boxes`,
/// `patterns`, `guess`, and further readings under `readings`.
std::string words_json(const Phonics& phonics,
                       const std::vector<std::vector<Reading>>& words,
                       const Conventions& conventions);

/// A word that a search found; what is empty is left out.
struct FoundJson {
  std::string word, graphemes, sounds;
  bool picture = false;
  std::string pair = {};  ///< a word of the other pattern, one sound away
  bool exception = false;
};

/// `{"pattern": id, "words": [{"word": ...}, ...]}`; a word that is an
/// exception in a contrast says so.
std::string found_json(std::string_view pattern,
                       const std::vector<FoundJson>& words);

/// One attempt and where it is from; texts are empty where that is not known.
struct AttemptRow {
  std::string date, lesson, kind, learner;
  MarkedAttempt attempt;
};

/// An object with the list `attempts`; each has `target`, `written`,
/// `graphemes` (a list of `grapheme`, `result`, `cause`; `cause` is null where
/// the grapheme is correct), `extra`, `letter_sequences`,
/// `letter_sequences_possible`, `right`, and where known `date`, `lesson`,
/// `kind`, `learner`.
std::string attempts_json(const std::vector<AttemptRow>& rows);

/// An object with `learner` where one was named, the number of `words`, the
/// list `patterns` (`pattern`, `right`, `chances`) and the list `noted` of
/// words that are not right or may be others, in the order of the text:
/// `written`, `line`, `column`, `kind` (misspelled, rare, not-known, name;
/// possible where the word is right and may stand for another), `meant` (a list
/// of `word`, `sure`) and `patterns` (a list of `pattern`, `meant`, `result`,
/// `cause`).
std::string writing_json(const FreeWriting& writing,
                         const PatternCatalogue& catalogue,
                         const SourceFile& file, std::string_view learner);

}  // namespace sheaf
