#pragma once

#include <string>
#include <vector>

#include "base/diagnostics.h"
#include "base/source.h"
#include "driver/check_file.h"
#include "driver/workspace.h"
#include "marking/free_writing.h"
#include "marking/mark_attempt.h"
#include "phonics/phonics.h"
#include "planning/sentence_search.h"

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

/// `{"patterns": [...], "sentences": [{"text": ..., "readers": ..., "words": N,
/// "pattern_words": N, "not_yet": [...]}, ...]}`; `not_yet` only where there is
/// any. A passage has `title`, `text` and `questions` besides.
std::string sentences_json(const std::vector<std::string>& patterns,
                           const std::vector<FoundSentence>& found);
std::string passages_json(const std::vector<std::string>& patterns,
                          const std::vector<FoundPassage>& found);
/// "both", "younger" or "older".
std::string_view readers_name(Readers readers);

/// One attempt and where it is from; texts are empty where that is not known.
struct AttemptRow {
  /// A pattern of the record that the word has, and whether it was right there.
  struct Chance {
    std::string pattern;
    bool right = false;
  };
  std::string date, lesson, kind, learner;
  MarkedAttempt attempt;
  std::vector<Chance> patterns;
};

/// An object with the list `attempts`; each has `target`, `written`,
/// `graphemes` (a list of `grapheme`, `result`, `cause`; `cause` is null where
/// the grapheme is correct), `extra`, `letter_sequences`,
/// `letter_sequences_possible`, `right`, and where known `date`, `lesson`,
/// `kind`, `learner` and `patterns` (a list of `pattern`, `right`).
///
/// A year of a class has a hundred thousand attempts, so none waits for the
/// next: the object is what these give, one after the other.
class AttemptsJson {
 public:
  std::string add(const AttemptRow& row);
  std::string end() const;

 private:
  bool empty_ = true;
};

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

/// What `sheaf check` has to say of a file, in one line: an object with `file`,
/// `good` (no error stands), the list `messages` in the order of the text form,
/// and `lesson`, null where the file is none or could not be read.
///
/// A message has `name`, `severity`, `text`, `help` (null where there is none),
/// `place`, `remarks` (`text`, `place`) and `fixes` (`place`, `replacement`,
/// `label`, `certain`). A place is null, or has `file` and, where it is one
/// in the file, `begin` and `end` (the first that is not part of it), each with
/// `line` from 1, and the column from 0 in `utf8` (bytes) and `utf16` (code
/// units).
///
/// A lesson has `code`, `patterns`, `words` and `dictate_words` (as
/// `words_json` has them, with `standing`: decodable, by-sight, not-yet or
/// null, and `why` for not-yet), `sentences` and `dictate_sentences` (`text`,
/// `place`, `words`), and `readable`: `percent` and the counts of words, null
/// where nothing says what was taught. A list of sentences has, in place of
/// `lesson`, `sentences`: their `count`, how many are `long`, and `patterns`
/// (`pattern`, how many `sentences` have it; the `step` that teaches it and how
/// many are `readable` then, null without a sequence).
std::string check_json(std::string_view path, const CheckedFile& checked);

}  // namespace sheaf
