#pragma once

#include <optional>

#include "layout/block.h"
#include "pictures/letter_strokes.h"

namespace sheaf {

/// A mouth seen from the side, cut through the middle, the face to the left: a
/// plain line drawing of our own that is made from a few numbers, so that two
/// sounds can be told apart by what moves.

/// The top of the tongue, from its tip to its back, in the drawing's units; see
/// `kMouthWidth`. The roof of the mouth is at y 44 behind the top teeth (x 31)
/// and at 31 in the middle (x 50 to 66).
struct MouthTongue {
  StrokePoint tip, blade, body, back;
};

struct MouthShape {
  enum class Lips { shut, teeth, round, forward, spread, open };
  enum class Air { stop, rush, rub, sides, free, nose };
  Lips lips = Lips::open;
  int jaw = 0;  ///< how far it is down, 0 to 3
  MouthTongue tongue;
  /// Where the tongue moves to, drawn in dashes.
  std::optional<MouthTongue> end;
  Air air = Air::free;
  bool voice = false;
};

/// The drawing's own units: x from -14 to 100, y from 0 to 100.
inline constexpr double kMouthWidth = 114;
inline constexpr double kMouthHeight = 100;

/// Draws it as large as `box` allows, in its middle. What is outside the lips
/// or the nose is the air: an arrow; a wavy one where it has to squeeze
/// through; behind a bar where it is stopped first. The ring in the throat is
/// the voice: a wave in it where it hums, else a level line.
void draw_mouth(Block& block, const Style& style, const MouthShape& shape,
                const Rect& box, ElementId element);

}  // namespace sheaf
