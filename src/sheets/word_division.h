#pragma once

#include <string>
#include <string_view>

#include "phonics/endings.h"
#include "phonics/phonics.h"

namespace sheaf {

/// Words taken apart for the eye: base and ending, prefix and base. Their beats
/// are phonics/division.h's.

/// The base of a word and its ending, with what happened where they meet:
/// "running" is run + ing with n doubled. Nothing where the word has no ending
/// that the catalogue's patterns see, or no base that the word list knows.
EndingAnalysis base_and_ending(const Reading& reading, const Phonics& phonics);
/// The same of a word's first reading, remembered: for searches.
EndingAnalysis base_and_ending(std::string_view word,
                               const Conventions& conventions,
                               const Phonics& phonics);

/// A word of a prefix and a base that is a word by itself: un and happy.
/// `meaning` is what the two add up to, in plain words, or empty (see
/// prefix_meanings.h). Nothing where the word only begins so (uncle).
struct PrefixedWord {
  std::string prefix, base, meaning;
  explicit operator bool() const { return !prefix.empty(); }
};
PrefixedWord prefix_and_base(const Reading& reading, const Phonics& phonics);

/// What a learner would call the change: "nothing changes", "the last letter
/// is doubled".
std::string_view change_name(Joint joint);

}  // namespace sheaf
