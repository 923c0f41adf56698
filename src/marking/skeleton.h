#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/phoneme.h"

namespace sheaf {

/// The consonants of a word in seven coarse groups, so that near misspellings
/// of a word share its skeleton: P (p b), T (t d), F (f v th), K (k g), S (s z
/// sh ch j), L, R, M (m n ng), W at the start. Vowels, h and y are left out;
/// neighbours of one group count once.
std::string consonant_skeleton(std::span<const Phoneme> sounds);

/// The skeletons that letters a to z may stand for; ambiguous letters (g, ch,
/// gh) give several, at most eight.
std::vector<std::string> letter_skeletons(std::string_view letters);

}  // namespace sheaf
