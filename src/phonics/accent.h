#pragma once

#include <vector>

#include "phonics/conventions.h"
#include "phonics/reading.h"

namespace sheaf {

/// Settles how the accent in force says the units of a word, once, when a
/// reading is made. Which words its speakers have otherwise (tomato, bath,
/// orange, hurry) the word list knows: see `Lexicon::with`. Patterns are judged
/// on that and not on what is done here, so that car keeps its r for them.
/// Rules, from spelling and place; all from memory of the accents' common
/// descriptions:
/// - short o is a sound by itself in every accent: that of pond, of dog and
///   soft, and of a behind w (swan); not the a of father;
/// - r is lost but before a vowel (british, australian), and its vowel changes:
///   near and hair get vowels of their own, fur the r alone, and sister ends in
///   the weak vowel; elsewhere the weak vowel keeps its r;
/// - y is kept in tune, new, due, presume (yod);
/// - caught as cot (the vowel of saw is short o), wh as /hw/.
/// What a teacher's split gives is not made short o, nor weak.
void apply_accent(std::vector<Unit>& units, const Conventions& conventions);

/// What a grapheme that says this in the word list says in an accent, by itself
/// and with stress.
std::vector<Phoneme> in_accent(std::string_view grapheme,
                               const std::vector<Phoneme>& listed,
                               const Conventions& conventions);

/// The phonemes as a word list has them: without those that only `apply_accent`
/// makes of others.
std::vector<Phoneme> as_listed(std::vector<Phoneme> phonemes);

}  // namespace sheaf
