#pragma once

#include <string_view>
#include <vector>

#include "base/diagnostics.h"
#include "input/fields.h"
#include "input/lesson.h"

namespace sheaf {

inline constexpr std::size_t kMostWords = 2000;
inline constexpr int kMostLetters = 64;

/// Checks that a text can be a word: letters of the Latin script with
/// apostrophes, and hyphens inside. Puts it into Unicode form C. Reports what
/// cannot be in a word and returns false then.
bool check_word(PlacedWord& word, Diagnostics& diagnostics);

/// Checks one grapheme of a word parted by hand: letters, or letters with one
/// gap (a_e).
bool check_grapheme(PlacedWord& grapheme, Diagnostics& diagnostics);

/// A list of words, each of which may be parted by `|`. What is no word is
/// reported and left out, and so is a word that stands there twice.
std::vector<LessonWord> read_lesson_words(const Field& field,
                                          Diagnostics& diagnostics);
/// A list of words that may not be parted.
std::vector<PlacedWord> read_plain_words(const Field& field,
                                         Diagnostics& diagnostics);

/// The entries under `split:`.
std::vector<LessonSplit> read_splits(const Field& field,
                                     Diagnostics& diagnostics);

/// Puts a word together from its graphemes. The letters after the gap of a
/// split one stand behind the grapheme that follows, or behind two of them in
/// -aste and -ange. Empty where nothing follows the gap.
std::string put_together(const std::vector<PlacedWord>& graphemes);

/// Whether the graphemes make the word; letters after a gap may stand behind
/// one or two of the graphemes that follow. Case, apostrophes and hyphens are
/// not compared.
bool graphemes_make(const std::vector<std::string_view>& graphemes,
                    std::string_view word);

}  // namespace sheaf
