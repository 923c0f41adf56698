#pragma once

#include "base/geometry.h"

namespace sheaf {

/// Turns what a pen draws into a shape to fill, so that our own drawings are
/// outlines as the font's glyphs are. All shapes of one drawing go round the
/// same way: with non-zero filling they may lie over each other.

/// The outline of a line drawn along `path` with a round pen of that width.
/// Curves must bend more gently than the pen is wide.
Path stroke_outline(const Path& path, Length pen);

/// `path` as a shape to fill that goes round the same way as a stroke. A hole
/// must go the other way round than the shape it is in.
Path fill_outline(const Path& path);

}  // namespace sheaf
