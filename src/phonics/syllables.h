#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "phonics/phoneme.h"

namespace sheaf {

/// The syllable of each phoneme, from 0. A syllable takes as many consonants
/// before its vowel as may begin an English word.
std::vector<std::uint8_t> syllables_of(std::span<const Phoneme> phonemes);

}  // namespace sheaf
