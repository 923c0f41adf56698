#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "phonics/division.h"
#include "sheets/sheet.h"

namespace sheaf {

/// The words of the sheet on long words, shared by the sheet, its key and its
/// script. Points into the lesson.
std::vector<const AnalyzedWord*> long_words(const SheetInput& in);

/// The number that a learner writes for a kind of part: the same in every
/// lesson, so that it is learned once. Our own; no source.
int kind_number(PartKind kind);
/// What makes a part of this kind, for the teacher: "ends in its vowel, which
/// says its name".
std::string_view kind_meaning(PartKind kind);
/// The kinds that the words have, by number.
std::vector<PartKind> kinds_of(const std::vector<const AnalyzedWord*>& words);

/// Why a word divides where it does: "between two words, then between two
/// consonants".
std::string division_reasons(const AnalyzedWord& word);
/// "fan, tas, tic".
std::string parts_said(const AnalyzedWord& word);
/// The vowels to mark, as letters from `begin` to before `end`: one for each
/// part, the le of -le among them.
struct VowelPlace {
  std::size_t begin = 0, end = 0;
};
std::vector<VowelPlace> vowels_of(const AnalyzedWord& word);

/// Whether a part has its silent e dropped before an ending: the mak of making.
bool has_dropped_e(const AnalyzedWord& word);

/// Whether a part has a weak vowel, which is said otherwise than its letter is
/// read there, so that the parts have to be read as they are spelled.
bool has_weak_part(const AnalyzedWord& word);

/// The key: each word in its parts, their kinds with their numbers, and the
/// rules.
void add_long_word_answers(const SheetInput& in, Composer& c);

}  // namespace sheaf
