#pragma once

#include <vector>

#include "phonics/conventions.h"
#include "phonics/reading.h"

namespace sheaf {

/// Turns the dictionary's sounds (General American) into those of the accent
/// in force. Rules, from spelling and place; all from memory of the accents'
/// common descriptions:
/// - r is lost but before a vowel (british, australian), and its vowel changes:
///   near and hair get vowels of their own, fur and teacher lose the r alone;
/// - y is kept in tune, new, due (yod);
/// - o of pond has a vowel of its own, apart from father (british, australian);
/// - bath, grass, dance have the vowel of father; `bath_word` tells which;
/// - caught as cot, wh as /hw/.
void apply_accent(std::vector<Unit>& units, bool bath_word,
                  const Conventions& conventions);

/// Whether a unit spells the short o of pond: by o, ou of cough, a behind w.
bool is_short_o(const std::vector<Unit>& units, std::size_t unit);

}  // namespace sheaf
