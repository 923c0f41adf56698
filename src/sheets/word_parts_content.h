#pragma once

#include <string>
#include <vector>

#include "sheets/sheet.h"
#include "sheets/word_division.h"

namespace sheaf {

/// A word of a base and an ending.
struct Built {
  const AnalyzedWord* word;
  EndingAnalysis parts;
};
/// A word of several syllables.
struct Divided {
  const AnalyzedWord* word;
  std::vector<std::string> syllables;
};

/// A word with a grapheme that does not say its usual sound.
struct Irregular {
  const AnalyzedWord* word;
  std::string text;  ///< without the capital of a sentence's first word
};

/// What each part of the sheet of word parts shows; a word stands in one of
/// them only.
struct WordParts {
  std::vector<Built> built;
  std::vector<Divided> divided;
  std::vector<Irregular> irregular;
};

/// The words of the lesson in their parts, and the irregular ones among its
/// sight words, as many of each as the sheet's options `words`, `endings`,
/// `syllables` and `irregular` ask for. Points into the lesson.
WordParts word_parts_of(const SheetInput& in);

}  // namespace sheaf
