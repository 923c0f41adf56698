#pragma once

#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/shared_list.h"
#include "input/learner_code.h"
#include "input/record_file.h"
#include "marking/mark_sentence.h"
#include "phonics/phonics.h"

namespace sheaf {

/// A word or sentence that was dictated.
struct DictatedItem {
  std::string text;
  /// One, or those of the sentence. The records of one lesson share them.
  SharedList<Reading> words;
  bool sentence = false;
};

/// One word as one learner wrote it.
struct SessionWord {
  /// Which item, and which of its words.
  std::size_t item = 0;
  std::size_t word = 0;
  MarkedWord::Kind kind = MarkedWord::Kind::matched;
  MarkedAttempt attempt;

  bool right() const {
    return kind == MarkedWord::Kind::matched && attempt.right;
  }
};

struct LearnerResult {
  LearnerCode code;
  bool absent = false;
  /// The lesson is of a later step than the learner's own: it taught them
  /// nothing, whatever they wrote.
  bool beyond_step = false;
  std::vector<SessionWord> words;
  /// Words that stand in a sentence and were not dictated.
  std::vector<ExtraWord> extra_words;
  /// From a tally of a journal.
  struct Tally {
    PatternId pattern = 0;
    int right = 0;
    int chances = 0;
  };
  std::vector<Tally> writing;
};

/// Words that learners knew by sight, in lower case.
using SightWords = std::set<std::string, std::less<>>;

/// What came of one day's record. Items are those of the lesson, then those
/// that only the record names.
struct SessionResult {
  Date date;
  Record::Kind kind = Record::Kind::dictation;
  /// The lesson's name: the same for records of one lesson file, and another
  /// one for a file of the same name in another folder.
  std::string lesson;
  std::vector<DictatedItem> items;
  /// Those of that day: such a word is remembered as a whole, and shows nothing
  /// of the patterns in it.
  SightWords sight_words;
  /// Of a check of where to begin, which says nothing of what comes next for
  /// the group.
  bool placement = false;
  /// In the order of the class, then of the record.
  std::vector<LearnerResult> learners;

  /// What the record says that nothing could be made of: targets that were not
  /// dictated (they are marked all the same), codes that the class does not
  /// have, names of patterns that are unknown or stand for several.
  std::vector<PlacedText> not_dictated;
  std::vector<PlacedCode> not_in_class;
  std::vector<PlacedWord> unknown_patterns;

  /// The reading that a session word was marked against.
  const Reading& reading(const SessionWord& word) const {
    return items[word.item].words[word.word];
  }
  const LearnerResult* find(const LearnerCode& code) const;
};

/// The dictation of a sentence or word: `text` with its words looked up.
DictatedItem dictated_item(std::string_view text, const Phonics& phonics,
                           const Conventions& conventions = {});

/// What marking takes, in words of which each costs some 12 microseconds and
/// half a kilobyte: one thing that was written, and a whole record.
std::size_t marking_work(std::string_view target, std::string_view written);
/// `lesson_work` is that of all that the lesson dictates, for one learner.
std::size_t marking_work(const Record& record, std::size_t lesson_work);

/// Works out who wrote what. `marked: all` marks everyone whom the record
/// lists but the absent, `marked: not yet` nobody; a learner who is marked
/// wrote right whatever `wrong` does not name; of learners under `written`
/// nothing else is known. `.` is a blank. The codes of the class give the
/// order, and no more.
SessionResult mark_session(const Record& record,
                           std::span<const LearnerCode> class_codes,
                           std::vector<DictatedItem> items,
                           const SoundSpellings& spellings,
                           const Phonics& phonics,
                           const MarkingOptions& options = {});

}  // namespace sheaf
