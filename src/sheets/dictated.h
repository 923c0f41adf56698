#pragma once

#include <span>

#include "sheets/sheet.h"

namespace sheaf {

/// What a dictation sheet dictates: as much of the lesson's words and sentences
/// as its options leave. Shared by the sheet, its key and the script, so that
/// numbers agree.
struct Dictated {
  std::span<const AnalyzedWord> words;
  std::span<const AnalyzedSentence> sentences;
};

Dictated dictated(const AnalyzedLesson& lesson, const OptionValues& options);
/// The same for the dictation of this packet; everything where it has none.
Dictated dictated_in_packet(const SheetInput& in);

}  // namespace sheaf
