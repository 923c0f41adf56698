#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "layout/block.h"

namespace sheaf {

/// One box of a word: a sound, and the grapheme that is written for it.
struct SoundBox {
  std::string letters;  ///< what goes into the box, "a" for a_e
  /// A grapheme that spells several sounds (x) is written across their boxes;
  /// this is box `part` of `parts`.
  int part = 0;
  int parts = 1;
  /// The letter of a split grapheme's end that stands after this box ("e"),
  /// in a narrow slot of its own; else empty.
  std::string slot_after;
  /// Begins another beat of the word: a wider gap stands before it.
  bool starts_beat = false;
  bool of_pattern = false;
  bool slot_of_pattern = false;  ///< the grapheme that the slot's letter ends
  /// Printed where `BoxFill::given` asks for it; the same for the slot.
  bool given = false;
  bool slot_given = false;
};

/// The measures that all rows of a page share.
struct BoxMeasures {
  Length width;
  Length slot_width;
  Length x_height;
  /// Between two beats of a word, in hundredths of a box.
  int beat_share = 30;
  Length beat_gap() const { return width * beat_share / 100; }
  Length height() const { return 3 * x_height + Length::from_mm(1.5); }
  Length base() const { return 2 * x_height + Length::from_mm(0.75); }
};

/// Makes the gaps between beats as narrow as they must be, so that no word
/// needs more rows of this width for them than it does without.
void fit_beat_gaps(std::span<const std::vector<SoundBox>> words, Length width,
                   BoxMeasures& measures);

/// What stands in the boxes when they are handed out.
enum class BoxFill { empty, first, pattern, given, all };

/// The least measures that hold the widest grapheme of all words in this hand.
BoxMeasures measure_boxes(std::span<const std::vector<SoundBox>> words,
                          Length x_height, Length least_width);

struct BoxRowOptions {
  BoxFill fill = BoxFill::empty;
  bool slots = true;
  bool tap_dots = true;
  bool first_row = true;  ///< the word begins with it
  TextStyle text;         ///< its size is set by the x-height
  double print = 1;       ///< how much of that size what is printed has
  Length tap_dot = Length::from_mm(2.4);
};

/// The least width of a box that holds what is printed in the boxes of all
/// words: type may be wider than the hand.
Length printed_box_width(Composer& composer,
                         std::span<const std::vector<SoundBox>> words,
                         Length x_height, const BoxRowOptions& options);

/// Boxes of one word in rows: one row if they fit `width` and are at most ten,
/// else two or more, broken between beats where there are some.
std::vector<std::vector<SoundBox>> box_rows(const std::vector<SoundBox>& boxes,
                                            const BoxMeasures& measures,
                                            Length width);

/// Width of one row.
Length row_width(std::span<const SoundBox> row, const BoxMeasures& measures);
/// Height of one row, tap dots included.
Length row_height(const BoxMeasures& measures);

/// What eyes see of the boxes of a word, as it is drawn with these options in
/// `rows` rows: "3 empty boxes, then a narrow slot for the silent e; a dot to
/// tap over each box", "3 boxes: sh, empty, empty", "5 empty boxes, in beats of
/// 3 and 2".
std::string heard_boxes(std::span<const SoundBox> word, int rows,
                        const BoxRowOptions& options);

/// Draws one row with its top left corner at `at`.
void draw_box_row(Composer& composer, Block& block,
                  std::span<const SoundBox> row, const BoxMeasures& measures,
                  const BoxRowOptions& options, Point at, ElementId element);

}  // namespace sheaf
