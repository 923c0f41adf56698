#pragma once

#include <string>
#include <vector>

#include "layout/mouth_view.h"
#include "phonics/phoneme.h"

namespace sheaf {

/// A sound of one phoneme, or of two that melt into one: a vowel with its r,
/// /y/ before the oo of moon.
bool has_mouth_shape(const std::vector<Phoneme>& sound);

/// How it is drawn; src/data/sound_making.tsv says how it is made.
MouthShape mouth_shape(const std::vector<Phoneme>& sound);

/// The same in short plain sentences, one a line: lips, tongue, air, voice.
std::vector<std::string> told_of_mouth(const std::vector<Phoneme>& sound);

}  // namespace sheaf
