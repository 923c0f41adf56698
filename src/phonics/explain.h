#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/conventions.h"
#include "phonics/reading.h"

namespace sheaf {

/// How the boxes of a word are counted: "car: 2 boxes (r-vowel one; 3 with
/// two)". Each switch that would change the count is named.
std::string explain_boxes(const Reading& reading,
                          const Conventions& conventions);

/// The line that a lesson puts under `split:` to have this reading: "chef:
/// ch=/sh/ e f", with hyphens where the lesson divided it. Sounds stand where
/// the grapheme seldom says them, and where one of the `others` (readings of
/// the same word) says something else.
std::string split_line(const Reading& reading,
                       std::span<const Reading> others = {});

/// Where a reading comes from, for people: "word list", "a guess".
std::string_view origin_text(Reading::Origin origin);

/// "b o t", "c a_e k": the graphemes of a word.
std::string graphemes_text(const Reading& reading);
/// "/k/ /ay/ /k/": the sounds as taught, in the notation in force.
std::string sounds_text(const Reading& reading, const Conventions& conventions);
/// The phonemes of a dictionary in the accent in force, in IPA, one each.
std::vector<std::string> ipa_phonemes(const Reading& reading,
                                      const Conventions& conventions);

}  // namespace sheaf
