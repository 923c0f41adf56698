#pragma once

#include <string>
#include <vector>

#include "analysis/word_games.h"
#include "sheets/sheet.h"

namespace sheaf {

/// The words of the sheet `chain`, with its options: the first is given, each
/// other is one sound from the word before. Empty where there is no chain.
const std::vector<ChainWord>& chain_words(const SheetInput& in);

/// What is changed, in letters, as a learner reads it: "Change the last sound:
/// p to n", "Add a sound at the front: s", "Take away the second sound: l".
std::string step_in_letters(const SoundStep& step);
/// The same in sounds, as the teacher says it: "Change the last sound: /p/ to
/// /n/".
std::string step_in_sounds(const AnalyzedLesson& lesson, const SoundStep& step);

/// What the teacher says and does.
ScriptLines chain_script(const SheetInput& in, const DayStep& step);

}  // namespace sheaf
