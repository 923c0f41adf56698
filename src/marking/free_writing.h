#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "marking/mark_attempt.h"
#include "marking/running_text.h"
#include "marking/session.h"
#include "marking/word_index.h"
#include "phonics/phonics.h"

namespace sheaf {

/// A place in a learner's own text where a taught pattern was called for.
struct WritingChance {
  enum class Verdict : std::uint8_t {
    right,
    wrong,
    /// Another word than the text has may have been meant, so that the
    /// pattern was missed (rode for road). Not counted.
    possible,
    /// A misspelling that may be a word with the pattern. Not counted.
    unsure,
  };
  PatternId pattern = 0;
  /// Which word of the text, as an index into `FreeWriting::text`.
  std::size_t word = 0;
  std::string meant;
  Verdict verdict = Verdict::right;
  /// How sure it is that this word was meant, in percent; 100 where the word
  /// is spelled right or the teacher said so.
  int sure = 100;
  /// What is behind a wrong one.
  Cause cause = Cause::none;
};

/// A word of the text that is not spelled right, or that Sheaf cannot judge,
/// whether it has a taught pattern or not.
struct NotedWord {
  enum class Kind : std::uint8_t {
    misspelled,
    /// In the word list, but a word like it is far likelier in a child's text.
    rare,
    /// In no list of words, and not near one that is.
    not_known,
    /// Not known, and with a capital inside a sentence.
    name,
  };
  /// A word that may have been meant, and how sure that is, in percent.
  struct Meant {
    std::string word;
    int sure = 0;
  };
  /// Which word of the text, as an index into `FreeWriting::text`.
  std::size_t word = 0;
  Kind kind = Kind::misspelled;
  /// The likeliest first, none far behind it; the teacher's answer alone where
  /// there is one. Empty for words that are not known, and for names.
  std::vector<Meant> meant;
};

struct PatternCount {
  PatternId pattern = 0;
  int right = 0;
  int chances = 0;
};

struct FreeWriting {
  RunningText text;
  /// In the order of the text, then of `taught`.
  std::vector<WritingChance> chances;
  /// In the order of the text, each at most once.
  std::vector<NotedWord> noted;
  /// One for each taught pattern, in its order: right and wrong ones alone, and
  /// a word once however often it comes, right if it was right each time.
  std::vector<PatternCount> counts;
};

/// What free writing is read with.
struct WritingGround {
  const Phonics& phonics;
  const SoundSpellings& spellings;
  const WordIndex& index;
  MarkingOptions options;
  /// Words known by sight, in lower case, show nothing of a pattern.
  SightWords sight_words = {};
};

/// Finds in a text every word that has a taught pattern and says whether the
/// pattern was spelled right in it. A word that is spelled wrong somewhere else
/// only (shep: sh is right) counts as right. Every word that is not spelled
/// right is noted, with a taught pattern or without. Answers in the text count
/// for sure.
FreeWriting read_free_writing(std::string_view text,
                              std::span<const PatternId> taught,
                              const WritingGround& ground);

}  // namespace sheaf
