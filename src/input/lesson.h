#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/diagnostics.h"
#include "base/value.h"
#include "input/convention_settings.h"
#include "input/placement.h"

namespace sheaf {

/// A word as the lesson writes it. Spellings are in Unicode form C.
struct LessonWord {
  PlacedWord spelling;
  /// Its graphemes where the teacher parted them (`sh|e|d`, `sh|a_e|k`), each
  /// in its place; else empty. `spelling` is then the word put together.
  std::vector<PlacedWord> graphemes;
};

/// The entry of one word under `split:`. A grapheme may be given its sounds,
/// `ch=/sh/ e f`, and a hyphen between two says that the word divides there,
/// `f i_e r - s i_e d`.
struct LessonSplit {
  struct Part {
    PlacedWord grapheme;
    std::optional<PlacedWord> sound;  ///< without the slashes
    bool begins_beat = false;
  };
  PlacedWord word;
  std::vector<Part> parts;
  /// Where only the division was given (`fire-side`): how many letters stand
  /// before each of its parts but the first. There are no `parts` then.
  std::vector<std::size_t> division;
};

/// One sentence or other line of text, trimmed; its parts have places.
using LessonLine = PlacedText;

/// Connected text to read. A teacher's own has paragraphs alone.
struct LessonPassage {
  PlacedText title;
  std::vector<LessonLine> paragraphs;
  std::vector<LessonLine> questions;
  /// How many words Sheaf is to look for, where a number stands in its place;
  /// 0: none is wanted.
  Spanned<int> words{.value = 0};
};

/// A lesson file as it was written, checked for form only: every name (a
/// pattern, a layout) still has to be looked up. What was left out is empty or
/// holds its default, with no span.
struct Lesson {
  const SourceFile* file = nullptr;

  Spanned<int> version{.value = 1};
  Spanned<std::string> title;
  std::vector<PlacedWord> patterns;  ///< one to four
  std::vector<LessonWord> words;
  Spanned<int> pick{.value = 0};
  PlacedWord key_word;
  std::vector<PlacedWord> same_sound;
  std::vector<PlacedWord> other_sound;
  /// More words for a sort by what -ed says; never among `words`.
  std::vector<LessonWord> sort_words;
  std::vector<LessonLine> sentences;
  /// How many Sheaf is to choose, where a number stands in their place.
  Spanned<int> sentence_count{.value = 0};
  std::vector<LessonWord> dictate_words;
  std::vector<LessonLine> dictate_sentences;
  Spanned<int> dictate_sentence_count{.value = 0};
  LessonPassage passage;
  std::vector<PlacedWord> sight_words;
  PlacedWord sequence;
  Spanned<std::string> step;  ///< a step's number or name
  std::vector<PlacedWord> taught;
  /// Whether a word that was not taught yet is an error.
  Spanned<bool> strict{.value = false};
  std::vector<LessonSplit> splits;
  /// Word and picture file, or word and an emoji.
  std::vector<std::pair<PlacedWord, PlacedWord>> pictures;
  std::vector<LessonLine> rhyme;
  std::vector<LessonLine> teacher_note;
  std::vector<LessonLine> home_note;
  Spanned<int> days{.value = 5};
  Spanned<int> minutes{.value = 25};
  Spanned<int> set{.value = 1};
  /// Switch and value, unread.
  std::vector<std::pair<PlacedWord, PlacedWord>> conventions;
  PlacedWord accent;
  /// What the layout, then the sequence say of that; the lesson outdoes both.
  std::vector<ConventionSettings> inherited_conventions;
  PlacedWord layout;
  /// A layout and a sequence that stand in the lesson itself instead of their
  /// names: keys with values; else nothing.
  Value own_layout;
  Value own_sequence;
  Spanned<int> review{.value = 0};
  PlacedWord group;
  PlacedWord author;
  PlacedWord licence;
  Spanned<std::string> seed;
  /// A check of where to begin, in place of a pattern and its words.
  Placement placement;

  /// Where each key of the file stands, in the file's order.
  std::vector<Spanned<std::string>> keys;
};

/// Reads a lesson file. Reports all that is wrong with its form; the result is
/// to be used only if no error stands. `file` must outlive the lesson.
Lesson read_lesson(const SourceFile& file, Diagnostics& diagnostics);

/// How many patterns a lesson may tell apart.
inline constexpr std::size_t kMostLessonPatterns = 4;

/// What stands under `sequence:` where none is to be taken.
inline constexpr std::string_view kNoSequence = "none";

/// How a picture begins that stands in the lesson itself, in base 64.
inline constexpr std::string_view kEmbeddedPicture = "data:image/";

/// Splits "ship, shed  shell" into words with their places; words are parted
/// by spaces, commas and line breaks.
std::vector<PlacedWord> split_words(const PlacedText& text);

}  // namespace sheaf
