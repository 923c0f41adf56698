#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "marking/cue_rules.h"
#include "marking/mark_attempt.h"
#include "phonics/conventions.h"

namespace sheaf {

/// What a teacher does first about an error.
enum class CueKind : std::uint8_t {
  none,
  read_back,   ///< have it read: it says something else
  beat_vowel,  ///< every beat needs a vowel letter
  doubling,    ///< the joint before an ending
  dropped_e,
  y_to_i,
  ending,      ///< -ed, whatever it sounds like
  rule,        ///< it can be read so, and a rule says how it is written
  other_way,   ///< it can be read so, and no rule says how it is written
  other_word,  ///< the same of an attempt that is another word: male for mail
  silent,      ///< a letter that says nothing
  near,        ///< look at the mouth
  tap,         ///< tap the sounds: which one is it?
  missing,     ///< tap the sounds: which one has no letter?
  order,
  turned,
  extra,
  apostrophe,
  speech,  ///< it follows how the learner speaks: by meaning or word building
};
/// "read-back", for tests and tables.
std::string_view cue_kind_name(CueKind kind);

/// What a teacher may say to a learner about an error. It leads to the sound or
/// the rule and never shows the wrong spelling.
struct ErrorCue {
  CueKind kind = CueKind::none;
  /// One to four short sentences; what the teacher says in quotation marks.
  std::string text;
  /// The pattern whose rule it says; empty where it says none.
  std::string_view rule;
};

/// An error in a word.
struct WordError {
  /// The grapheme it is about; their number for an apostrophe.
  std::size_t unit = 0;
  Cause cause = Cause::none;
  /// The letters that stand for it, as in `MarkedGrapheme`.
  std::string_view written;
  /// The whole attempt is another word.
  bool other_word = false;
  /// One that has the word, so that its meaning can be told; may be empty.
  std::string_view sentence = {};
};

/// `rules` may be null: then no rule is said.
ErrorCue error_cue(const Reading& word, const WordError& error,
                   const CueRules* rules, const Conventions& conventions);

/// The same for the first thing that is wrong in an attempt, from the left. No
/// cue where nothing is, or nothing was written.
ErrorCue first_cue(const Reading& word, const MarkedAttempt& attempt,
                   const CueRules* rules, const Conventions& conventions);

}  // namespace sheaf
