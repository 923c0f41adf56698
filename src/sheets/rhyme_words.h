#pragma once

#include <string>
#include <vector>

#include "sheets/sheet.h"

namespace sheaf {

inline constexpr std::size_t kMostRhymeWords = 5;

/// A word to swap into the blanks of the lesson's rhyme; its picture may be
/// null where the teacher named it.
struct RhymeWord {
  std::string word;
  const Picture* picture = nullptr;
};

/// Words for the blanks: first what the teacher wrote into them, then words of
/// the list with the pattern and a clear picture, then pictured words with its
/// sound, however spelled. None where the rhyme has no blank.
std::vector<RhymeWord> rhyme_words(const SheetInput& in);

}  // namespace sheaf
