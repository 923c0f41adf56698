#pragma once

#include <string>
#include <vector>

#include "sheets/join_questions.h"
#include "sheets/sheet.h"
#include "sheets/word_division.h"

namespace sheaf {

/// A word of a base and an ending.
struct Built {
  const AnalyzedWord* word;
  EndingAnalysis parts;
};
/// A word of a prefix and a base, with what they mean together.
struct Prefixed {
  const AnalyzedWord* word;
  PrefixedWord parts;
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
  /// Whose change the questions tell (see join_questions.h): by turns one of
  /// each change, the first two with a change if there are such words.
  std::vector<Built> asked;
  std::vector<Built> own_way;  ///< the others: seeing, knives
  std::vector<Prefixed> prefixed;
  /// With a prefix that the lesson is about, but without a meaning that the
  /// parts add up to: return.
  std::vector<const AnalyzedWord*> unexplained;
  std::vector<Divided> divided;
  std::vector<Irregular> irregular;
};

/// The words of the lesson in their parts, and the irregular ones among its
/// sight words, as many of each as the sheet's options `words`, `endings`,
/// `prefixes`, `syllables` and `irregular` ask for. A week on -ed takes some of
/// its words to sort too, so that there is something to tell apart. Points into
/// the lesson.
WordParts word_parts_of(const SheetInput& in);

/// Whether the lesson is about an ending or a prefix.
bool is_about_word_parts(const AnalyzedLesson& lesson);

}  // namespace sheaf
