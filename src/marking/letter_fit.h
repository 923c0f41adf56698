#pragma once

#include "marking/spelling_fit.h"

namespace sheaf {

/// The part of `spelling_fit` for graphemes of one letter.
Fit letter_fit(const Spelling& spelling, const GraphemePlace& place);

// What both parts ask of letters.
bool is_one_of(char c, std::string_view letters);
bool is_consonant_letter(char c);
bool is_last(const GraphemePlace& place);
/// At the end, or before an ending -s.
bool is_nearly_last(const GraphemePlace& place);
/// Behind w, wh or qu.
bool follows_w(const GraphemePlace& place);
/// Whether a single vowel letter stands where it is long: its syllable is open
/// (at the end, before another vowel, before one consonant and a vowel, before
/// a consonant and -le or r: table, apron), or a final e makes it so (cake).
bool stands_open(const GraphemePlace& place);
/// As a spelling of the weak vowel: usual where no stress falls.
Fit weak_fit(const GraphemePlace& place);
Fit usual_if(bool here);  ///< else elsewhere
Fit unusual_unless(bool usual);

}  // namespace sheaf
