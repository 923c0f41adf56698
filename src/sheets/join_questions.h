#pragma once

#include <string>
#include <string_view>

#include "phonics/endings.h"

namespace sheaf {

/// What a learner asks before an ending is put on a base, and what the answers
/// come to. The questions look at letters only, so that a learner of seven can
/// answer each of them (the rules are common practice, no source; those of the
/// English curriculum say the same).
struct JoinQuestions {
  bool ends_in_e = false;
  bool ends_in_consonant_y = false;
  /// One vowel letter, then one consonant letter, which may be doubled: not w,
  /// x or y. The u of qu is no vowel (quit).
  bool ends_in_vowel_consonant = false;
  bool vowel_next = false;  ///< the ending begins with a vowel, or is -y
  bool not_i_next = false;

  /// What they come to: double, drop e, y to i or nothing.
  Joint joint() const;
};

JoinQuestions join_questions(std::string_view base, Ending ending);

/// The word that the questions lead to: "hoped" of hope and -ed; "seing" of
/// see, and "openned" of open, which go their own way.
std::string joined_by_questions(std::string_view base, Ending ending);

}  // namespace sheaf
