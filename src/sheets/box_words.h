#pragma once

#include <vector>

#include "sheets/sheet.h"

namespace sheaf {

/// The words of the sheet of sound boxes with these options, in the order of
/// its numbers. Shared by the sheet, its key and the script, so that a word has
/// one number on all of them. Where the first word is done for the learner it
/// is the lesson's key word, which they know from the sound card. Points into
/// the lesson.
std::vector<const AnalyzedWord*> box_words(const SheetInput& in,
                                           const OptionValues& options);

/// Whether the learner hears the word from the teacher: it has no picture
/// there, or all words are dictated. Beside its number stands an ear.
bool is_box_word_heard(const SheetInput& in, const OptionValues& options,
                       const AnalyzedWord& word);

/// Whether the first of so many words is done for the learner.
bool has_box_model(const OptionValues& options, std::size_t words);

}  // namespace sheaf
