#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "layout/block.h"
#include "pictures/letter_strokes.h"

namespace sheaf {

/// Handwriting on ruled lines, from the strokes of `pictures/letter_strokes.h`:
/// dotted letters to trace along the middle of the pen's way, and large models
/// that show where strokes start and which way they go. `at` is where the ink
/// begins, on the base line. All texts must have letter shapes
/// (`has_letter_shapes`).

/// The width of what is written with small letters of this height.
Length strokes_width(std::string_view text, Length x_height);

/// The dots along the strokes of a letter, `pitch` units from each other or
/// nearly, so that strokes begin and end with one. Where the pen goes twice
/// they stand once, and none is so near to another that they run into each
/// other.
std::vector<StrokePoint> stroke_dots(const LetterShape& shape, double pitch);
/// The same on a page.
void draw_dotted_strokes(Block& block, std::string_view text, Length x_height,
                         Point at, Length dot, Length pitch, ElementId element);
/// A dot where each stroke starts, for writing alone.
void draw_start_dots(Block& block, std::string_view text, Length x_height,
                     Point at, Length dot, ElementId element);
/// The letters as a pen would write them.
void draw_pen_strokes(Block& block, std::string_view text, Length x_height,
                      Point at, Length pen, ElementId element);

/// What a model has beside its letters, in units of the letters from the left
/// end of the base line up and to the right; y as in a letter's own units.
struct ModelSigns {
  struct Start {
    StrokePoint at;
    int number = 0;  ///< of the stroke in its letter; 0: its letter has one
    StrokePoint number_at;  ///< the middle of the number
  };
  /// Beside a stroke, in the direction of writing; the head is at the end.
  struct Arrow {
    std::vector<StrokePoint> way;
    std::size_t stroke = 0;  ///< counted through the text
  };
  std::vector<Start> starts;  ///< one for each stroke
  std::vector<Arrow> arrows;
  /// Left, top, right and bottom of all that is drawn.
  double left = 0, top = 0, right = 0, bottom = 0;
};

/// Sizes of the signs, in units.
inline constexpr double kModelPen = 7;
inline constexpr double kModelStart = 19;  ///< diameter of a start dot

/// Works out the signs so that none covers the start of another stroke: a start
/// that would lie on another is moved along its stroke, and arrows and numbers
/// take the freest place beside their strokes. `number` is the size of the box
/// that a number needs, in units.
ModelSigns model_signs(std::string_view text, double number_width,
                       double number_height);

/// A large model; its signs may reach above the top line and to the left. Only
/// that of one letter has numbers.
struct LetterModel {
  std::string text;
  Length x_height;
  TextStyle number;
  ModelSigns signs;
  Length left() const;  ///< from the left edge of its ink to where `at` is
  Length width() const;
};
LetterModel plan_letter_model(Composer& composer, std::string_view text,
                              Length x_height);
void draw_letter_model(Composer& composer, Block& block,
                       const LetterModel& model, Point at, ElementId element);

/// "1, straight down; 2, across": how a letter is written, in words.
std::string strokes_in_words(char letter);

}  // namespace sheaf
