#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "layout/sound_boxes.h"
#include "layout/text_block.h"
#include "layout/touch_marks.h"

namespace sheaf {

/// Turns analysed words into what the layout draws. Shared by several sheets.

/// The graphemes of a word, for touch marks.
std::vector<Grapheme> graphemes_of(const AnalyzedWord& word);

/// The sound boxes of a word. `given` says of its units which are printed where
/// `BoxFill::given` asks for it.
std::vector<SoundBox> boxes_of(const AnalyzedWord& word,
                               const std::vector<bool>& given = {});

/// The graphemes as text, parted by spaces: "sh i p", "c a_e k".
std::string spelled_out(const AnalyzedWord& word);

/// The same for a line of text, with what stands around it, "(sh i p), ": heard
/// as "(sh, i, p), ", and "c a_e k" as "c, a-blank-e, k".
TextPiece spelled_piece(const AnalyzedWord& word, const TextStyle& style,
                        std::string_view before = {},
                        std::string_view after = {});

/// A sound as the lesson's notation writes it, between slashes: "/sh/"; empty
/// for no sound.
std::string said(const AnalyzedLesson& lesson,
                 const std::vector<Phoneme>& sound);
/// The sounds of a word, one for each box: "/sh/ /i/ /p/".
std::string sounds_of(const AnalyzedLesson& lesson, const AnalyzedWord& word);

/// The word as text with the letters of the pattern marked, for keys.
std::vector<TextPiece> marked_word(const AnalyzedLesson& lesson,
                                   const AnalyzedWord& word,
                                   const TextStyle& style,
                                   const TextStyle& pattern_style);

/// A sentence with its pattern words marked as a whole.
std::vector<TextPiece> marked_sentence(const AnalyzedSentence& sentence,
                                       const TextStyle& style,
                                       const TextStyle& pattern_style);

/// The bytes of a word that show the lesson's pattern, split e included, as
/// one flag a byte. An ending is marked whole, though its e belongs to a
/// grapheme of the base: the ed of cried.
std::vector<bool> pattern_bytes(const AnalyzedLesson& lesson,
                                const AnalyzedWord& word);

/// All words of the lesson, in its order.
std::vector<const AnalyzedWord*> words_of_list(const AnalyzedLesson& lesson);

/// The lesson's words, mixed by its seed; `salt` keeps two sheets from having
/// the same order.
std::vector<const AnalyzedWord*> mixed_words(const AnalyzedLesson& lesson,
                                             std::string_view salt);

/// Leaves the first `most` of some things and drops the others.
template <typename T>
void keep_first(std::vector<T>& things, int most) {
  const auto count = static_cast<std::size_t>(most);
  if (things.size() > count) things.erase(things.begin() + most, things.end());
}

/// Up to `most` words of the list that have the pattern, in its order; where
/// the lesson has several patterns, about as many of each.
std::vector<const AnalyzedWord*> practice_words(const AnalyzedLesson& lesson,
                                                int most);

/// The width of the widest of some words.
Length widest_word(Composer& composer, const TextStyle& style,
                   const std::vector<const AnalyzedWord*>& words);
/// The room that the widest of them takes when written by hand, by x-height.
Length widest_by_hand(const std::vector<const AnalyzedWord*>& words,
                      Length x_height);
/// The style, smaller where `width`, measured in it, is more than `room`.
TextStyle fitted_style(TextStyle style, Length width, Length room);

/// "1 box", "4 boxes".
std::string counted(int count, std::string_view one, std::string_view many);

}  // namespace sheaf
