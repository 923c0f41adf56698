#pragma once

#include <vector>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// For each pattern the word of the list that stands for its sound, or -1: one
/// with a picture, then the one that children are likeliest to know, then one
/// that says there what most of the list says. What is left is told by the
/// order of the list.
std::vector<int> likeliest_key_words(const std::vector<LessonPattern>& patterns,
                                     const std::vector<AnalyzedWord>& words,
                                     const Phonics& phonics,
                                     const PictureTest& pictures);

/// Fills in what the list and the key words tell of each pattern: its graphemes
/// and its sound.
void describe_patterns(std::vector<LessonPattern>& patterns,
                       const std::vector<AnalyzedWord>& words,
                       const std::vector<int>& key_words);

}  // namespace sheaf
