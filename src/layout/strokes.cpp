#include "layout/strokes.h"

namespace sheaf {

using namespace literals;

Stroke thin_stroke(const Style& style) { return {.width = style.guide_weight}; }

Stroke middle_stroke(const Style& style) {
  return {.width = style.guide_weight, .dash = {1.5_mm, 1.5_mm}};
}

Stroke dotted_stroke(const Style& style) {
  // A dot as thin as a line would not survive a photocopier.
  return {.width = style.guide_weight * 3 / 2,
          .dash = {Length(), 1.75_mm},
          .round_ends = true};
}

Stroke slot_stroke(const Style& style) {
  return {.width = style.guide_weight, .dash = {1.5_mm, 1.5_mm}};
}

Stroke cut_stroke(const Style& style) {
  return {.width = style.guide_weight, .dash = {2_mm, 2.5_mm}};
}

Stroke fold_stroke(const Style& style) {
  return {.width = style.box_weight, .dash = {3_mm, 3_mm}};
}

void draw_cut_lines(Block& block, const Style& style, const Rect& piece,
                    ElementId element) {
  const Stroke cut = cut_stroke(style);
  const Point corner{piece.x, piece.y};
  const Point right{piece.right(), piece.y};
  const Point below{piece.x, piece.bottom()};
  const Point across{piece.right(), piece.bottom()};
  block.line(corner, right, cut, element);
  block.line(below, across, cut, element);
  block.line(corner, below, cut, element);
  block.line(right, across, cut, element);
}

namespace {

constexpr Ink kMeantGround = 215;

}  // namespace

void draw_framed_ground(Block& block, const Style& style, const Rect& rect) {
  block.marks.push_back(RectMark{.rect = rect,
                                 .filled = true,
                                 .fill = kMeantGround,
                                 .stroke = thin_stroke(style)});
}

void draw_underlined_ground(Block& block, const Style& style, const Rect& rect,
                            ElementId element) {
  // The sides of an outline would stand beside letters like letters.
  if (style.fills_tints) block.shade(rect, kMeantGround, element);
  block.line({rect.x, rect.bottom()}, {rect.right(), rect.bottom()},
             {.width = style.box_weight * 3 / 2}, element);
}

}  // namespace sheaf
