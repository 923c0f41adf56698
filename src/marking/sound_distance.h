#pragma once

#include <span>

#include "phonics/phoneme.h"

namespace sheaf {

/// How far two sounds are apart to the ear, from 0 (the same) to 1000. Vowels
/// are compared by where the tongue begins and ends and by length, consonants
/// by place, manner and voice. The features are those of any chart of the
/// International Phonetic Alphabet; their weights are ours, chosen so that the
/// mix-ups that teachers know (t and ch before r, f and th, short e and i)
/// count as near.
int sound_distance(Phoneme a, Phoneme b);

/// The same for runs of sounds: changed ones at their distance, one too many
/// or too few at 500 (300 for the weak vowel and r, which slip most easily),
/// divided by the length of the longer run.
int sound_distance(std::span<const Phoneme> a, std::span<const Phoneme> b);

/// Sounds no further apart than this are near.
inline constexpr int kNearSound = 300;

}  // namespace sheaf
