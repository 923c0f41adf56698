#pragma once

#include <string_view>
#include <vector>

#include "layout/model_frame.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"
#include "sheets/word_parts_content.h"

namespace sheaf::word_parts_sheet {

/// What the parts of the sheet of word parts share: rows of something printed
/// from the left, with a line to write on.

inline constexpr Length kGap = Length::from_mm(4);
inline constexpr Length kFrameGap = Length::from_mm(3);  ///< between two frames

/// What all rows of one part share: what is printed, from the left, and the
/// line to write on behind it where it fits all words, else below.
struct Plan {
  Ruling ruling;
  TextStyle text;
  ModelRoom around;  ///< of the first row, where that is done; else nothing
  Length left;       ///< of what is printed
  Length line_left;  ///< from there
  Length right;      ///< where all lines end
  bool below = false;
  bool model = false;
  Length height() const {
    return set_height(ruling) + (below ? set_pitch(ruling) : Length());
  }
};
/// `printed` and `by_hand` are the widths of the widest of each.
Plan plan_rows(const SheetInput& in, const Composer& c, const TextStyle& text,
               Length printed, Length by_hand, bool model = false);
/// The width that what is printed may have.
Length printed_room(const Composer& c, bool model);

/// A row of a part: its block, its element, and where what is printed begins.
struct Row {
  Block* block = nullptr;
  ElementId body = kDecoration;
  Point at;
};
/// The first row stands in a box, "Like this", where the plan has a model.
Row add_row(Composer& c, const Plan& plan, std::size_t index, ElementId list);
/// What is written in a row: the first word is done where the plan has a model,
/// and of the second what `given` flags, if anything.
void draw_row_line(Composer& c, const Row& row, const Plan& plan,
                   std::size_t index, std::string_view word,
                   const std::vector<bool>& given = {});

/// The size of words at which what is printed of all of them, as `measure`
/// says, fits `room`.
template <typename Measure>
TextStyle fitted_words(const Composer& c, Measure measure, Length room) {
  TextStyle style = c.style().text(c.style().word_size);
  for (int tries = 0; tries < 6 && measure(style) > room; ++tries) {
    style = fitted_style(style, measure(style), room);
    style.size = scaled(style.size, 0.98);
  }
  return style;
}

/// The line of a row at `at`.
void draw_writing_line(Composer& c, Block& block, const Plan& plan,
                       ElementId parent, Point at);
void add_heading(Composer& c, std::string_view text);
Block& add_item_block(Composer& c, Length height, bool first);
/// The room that a word takes when it is written by hand.
Length by_hand(const SheetInput& in, const AnalyzedWord& word);

Length framed_width(Composer& c, const TextStyle& style, std::string_view text);
/// Text in the middle of a frame as tall as a line of it.
void draw_framed(Composer& c, Block& block, const TextStyle& style,
                 std::string_view text, Point base, Length width,
                 ElementId element);

/// Sums of a base and an ending: those whose change the questions tell, with
/// the questions to tick, then those that go their own way.
void add_sums(const SheetInput& in, Composer& c, const WordParts& content);
void add_sum_answers(Composer& c, const WordParts& content);

/// Words with a prefix beside what they mean, to be joined by lines, as many at
/// a time as fit a page; then their parts, to be written whole.
void add_meanings(const SheetInput& in, Composer& c, const WordParts& content);
void add_meaning_answers(const SheetInput& in, Composer& c,
                         const WordParts& content);

/// Rows of framed parts with a line for the whole word.
struct PartedWord {
  const AnalyzedWord* word;
  std::vector<std::string> parts;
};
void add_parted(const SheetInput& in, Composer& c,
                const std::vector<PartedWord>& words, std::string_view heading);

}  // namespace sheaf::word_parts_sheet
