#pragma once

#include <string_view>
#include <vector>

#include "base/geometry.h"

namespace sheaf {

/// How letters are written by hand: our print script, from
/// src/data/letter_strokes.txt, whose head says how it is drawn.

/// A letter's own units: small letters are this tall. y is 0 at the top line of
/// a set of ruled lines, 1, 2 and 3 times this at the lines below it.
inline constexpr double kStrokeXHeight = 100;

struct StrokePoint {
  double x = 0, y = 0;
};

/// A part of a stroke. In a path, a point of paper stands for a unit.
struct StrokeLeg {
  Path path;
  bool back = false;  ///< over what is there already
};

/// From where the pen is put down to where it is taken up.
struct LetterStroke {
  std::vector<StrokeLeg> legs;  ///< none of a dot
  bool dot = false;
  StrokePoint start;
  std::string_view say;  ///< "straight down, back up": one a movement
};

/// How writing a letter begins; letters of one family are learned together.
enum class LetterFamily { down, hump, bump, round, slant };

struct LetterShape {
  char letter = 0;
  LetterFamily family = LetterFamily::down;
  bool near_typeface = false;
  std::vector<LetterStroke> strokes;
  double width = 0;  ///< of its ink, which begins at 0
};

/// Null for what is no letter from a to z or A to Z.
const LetterShape* find_letter_shape(char letter);
/// Whether all of a text can be written so; blanks count.
bool has_letter_shapes(std::string_view text);

/// Points along a path, about `step` units from each other, its corners and
/// both ends among them.
std::vector<StrokePoint> points_along(const Path& path, double step);
/// How long it is, in units.
double length_of(const Path& path);

/// Reads the notation. `fault` says what is wrong with the text, with the
/// number of its line, or stays empty. The shapes point into the text.
std::vector<LetterShape> read_letter_shapes(std::string_view text,
                                            std::string& fault);

}  // namespace sheaf
