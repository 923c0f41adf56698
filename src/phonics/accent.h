#pragma once

#include <vector>

#include "phonics/conventions.h"
#include "phonics/reading.h"

namespace sheaf {

/// Settles what the units of a word say: turns the dictionary's sounds (General
/// American) into those of the accent in force, once, when a reading is made.
/// Rules, from spelling and place; all from memory of the accents' common
/// descriptions:
/// - short o is a sound by itself in every accent: that of pond, of dog and
///   soft, and of a behind w (swan); not the a of father. *was*, *what* and
///   *of* have it everywhere but in General American, which says short u;
/// - r is lost but before a vowel (british, australian), and its vowel changes:
///   near and hair get vowels of their own, fur the r alone, and sister ends in
///   the weak vowel; elsewhere the weak vowel keeps its r;
/// - y is kept in tune, new, due (yod);
/// - bath, grass, dance have the vowel of father; `bath_word` tells which;
/// - caught as cot (the vowel of saw is short o), wh as /hw/.
/// What a teacher's split gives is not made short o, nor weak.
void apply_accent(std::vector<Unit>& units, bool bath_word,
                  const Conventions& conventions);

/// What a grapheme that says this in the word list says in an accent, by itself
/// and with stress.
std::vector<Phoneme> in_accent(std::string_view grapheme,
                               const std::vector<Phoneme>& listed,
                               const Conventions& conventions);

/// The phonemes as a word list has them: without those that only `apply_accent`
/// makes of others.
std::vector<Phoneme> as_listed(std::vector<Phoneme> phonemes);

}  // namespace sheaf
