#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/pattern_catalogue.h"

namespace sheaf {

/// A pattern that a lesson defines for itself from graphemes and their sounds:
/// `ough=/oh/ ow=/oh/`, or `igh` for any sound.
struct OwnPattern {
  struct Spelling {
    std::string grapheme;
    std::vector<Phoneme> phonemes;  ///< empty: whatever it says
  };
  std::vector<Spelling> spellings;
};

/// Whether a lesson's text for a pattern is a definition rather than a name:
/// it has an equals sign.
bool is_own_pattern(std::string_view written);

/// Reads a definition. `fault` says what is wrong, or stays empty.
OwnPattern read_own_pattern(std::string_view written, std::string& fault);

/// The units of a word that show the pattern.
std::vector<std::uint8_t> places_of(const OwnPattern& pattern,
                                    const Reading& reading);

/// Why a word does not have it, as the end of a sentence.
std::string why_not_own(const OwnPattern& pattern, const Reading& reading);

}  // namespace sheaf
