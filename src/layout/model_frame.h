#pragma once

#include <span>
#include <string_view>

#include "layout/text_block.h"

namespace sheaf {

/// The first item of a sheet, done for the learner to look at: a box with round
/// corners, black, with "Like this" in its upper edge. The item within is
/// printed in black as the learner is to do it.

inline constexpr std::string_view kModelHead = "Like this:";

/// The room that the box takes around an item: from its outer edge to where the
/// item may begin. `above` holds the head, which stands in the upper edge.
struct ModelRoom {
  Length above;
  Length side;
  Length below;
  Length height() const { return above + below; }
};
ModelRoom model_room(const Style& style);

/// The box of an item of this height, `model_room(...).height()` included, as
/// wide as the page. Margins stay blank, so what stands in it is moved in by
/// `side`; sheets move what stands in rows of other items in as well where that
/// keeps them in line.
Rect model_box(const Composer& composer, Length height);
/// Where the head of such a box ends.
Length model_head_right(Composer& composer);

/// Draws the box with its head so that both fill `box`: as wide as the page for
/// most sheets, as tall as the item with `model_room(...).height()`. It is
/// heard as "Like this:" within `parent` (a list's body, a paragraph, a cell),
/// and is to be drawn before what stands in it, so that it is heard first.
void draw_model_frame(Composer& composer, Block& block, const Rect& box,
                      ElementId parent);

/// Adds a paragraph in such a box, one block: a sentence that shows how. Gives
/// the paragraph's element. Its height is what `model_text_height` says.
ElementId add_model_text(Composer& composer, std::span<const TextPiece> pieces,
                         Length space_before = {});
Length model_text_height(Composer& composer, std::span<const TextPiece> pieces);

}  // namespace sheaf
