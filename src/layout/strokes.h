#pragma once

#include "layout/block.h"

namespace sheaf {

/// What lines are drawn with. A photocopier makes black or white of every grey,
/// so all lines are black, and their dashes tell them apart. Each is light
/// enough to stay behind what is written on it: dashes and dots leave at
/// least as much of the paper white as they cover (our own judgement, looked at
/// on the screen at reading size).

/// A ground that may vanish on a photocopy: what it says is also said by bold
/// letters or a line.
inline constexpr Ink kLightGround = 232;

/// A thin line: between the rows of a table, inside a box, around a cell.
Stroke thin_stroke(const Style& style);
/// The line at the top of small letters.
Stroke middle_stroke(const Style& style);
/// The lines at the top of tall letters and at the end of hanging ones, and
/// others that are only looked at (a plot's grid): dots.
Stroke dotted_stroke(const Style& style);
/// Around what may be written or drawn in, but need not (a slot, a frame for a
/// picture), and within a box of two sounds.
Stroke slot_stroke(const Style& style);
/// Where the paper is cut.
Stroke cut_stroke(const Style& style);
/// Where the paper is folded.
Stroke fold_stroke(const Style& style);

/// The four sides of a piece of paper to be cut out. Each is a line from left
/// to right or from the top down, so that the dashes of two pieces that share a
/// side fall on each other.
void draw_cut_lines(Block& block, const Style& style, const Rect& piece,
                    ElementId element);

/// A grey ground that says something: with a frame, which is left of it on a
/// photocopy; or with a line at its foot, where other letters are too near for
/// a frame. Where grounds are not filled, the line says it alone.
void draw_framed_ground(Block& block, const Style& style, const Rect& rect);
void draw_underlined_ground(Block& block, const Style& style, const Rect& rect,
                            ElementId element = kDecoration);

}  // namespace sheaf
