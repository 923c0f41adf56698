#pragma once

#include <string_view>

#include "layout/block.h"

namespace sheaf {

/// Lines to write on. A set has a dotted line for tall letters, a dashed middle
/// line, the base line and a dotted one for what hangs below, at equal
/// distances (common practice, no source); other styles leave some of them out
/// but take the same room.

Length set_height(const Ruling& ruling);
/// From the top of a set to its base line.
Length base_in_set(const Ruling& ruling);
/// From one set to the next below it.
Length set_pitch(const Ruling& ruling);

/// Draws one set with its top left corner at `at`, as part of an element that
/// says how many there are (`add_writing_lines`).
void draw_set(Block& block, const Style& style, const Ruling& ruling, Point at,
              Length width, ElementId element);

/// Adds lines to write on as wide as the page, a block for each set, heard as
/// one thing; `space_before` is kept before the first of them.
void add_sets(Composer& composer, const Ruling& ruling, int count,
              Length space_before, ElementId parent = 0);

/// The width that a learner's hand needs for some letters, by x-height. Our
/// own judgement: i, j, l and t are narrow, m and w wide, a word space a letter
/// and a half.
Length hand_width(std::string_view text, Length x_height);
/// How many lines of `width` the text fills when written by hand; at least 1.
int hand_lines(std::string_view text, Length x_height, Length width);

}  // namespace sheaf
