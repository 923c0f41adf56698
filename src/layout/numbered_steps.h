#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "layout/text_block.h"

namespace sheaf {

/// How far the text of numbered steps is set in.
Length step_indent(const TextStyle& style);
/// Adds steps to take in order, as a numbered list.
void add_numbered_steps(Composer& composer, const TextStyle& style,
                        std::span<const std::string> steps);

/// The same with steps in several styles.
void add_numbered_texts(Composer& composer, const TextStyle& style,
                        std::span<const std::vector<TextPiece>> steps);

/// A text with a word or two before it, as in "Wait for".
struct LabelledText {
  std::string label;
  std::string text;
};
/// Adds texts as a list, each with its label at the left; the texts begin one
/// below the other, where `widest_label` leaves room.
void add_labelled_texts(Composer& composer, const TextStyle& style,
                        const TextStyle& label_style,
                        std::span<const LabelledText> texts,
                        std::string_view widest_label);

/// A step to tick, and how it is heard where its signs are read badly.
struct TickStep {
  std::string text;
  std::string heard = {};
};
/// Adds steps to tick when done, as a list with a square before each.
/// `space_between` parts one step from the next.
void add_tick_steps(Composer& composer, const TextStyle& style,
                    std::span<const TickStep> steps, Length space_between);

/// The side of a square to tick beside text of a style.
Length tick_side(const TextStyle& style);
/// Draws one, centred on the small letters of a line with this baseline, as
/// part of an element that says it (`add_tick_boxes`).
void draw_tick_box(Block& block, const Style& style, const TextStyle& text,
                   Point baseline_left, ElementId element);

}  // namespace sheaf
