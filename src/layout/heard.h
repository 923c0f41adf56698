#pragma once

#include <span>
#include <string>
#include <string_view>

#include "layout/block.h"

namespace sheaf {

/// What eyes see without letters, as elements that say it. Marks drawn with
/// such an id are heard as the text; everything that belongs to the thing is
/// drawn with the same id, so that it is said once.

/// A stretch of a line that is heard as `text`: a blank, an arrow, a sign.
ElementId add_heard(Composer& composer, ElementId parent, std::string text);
/// For a text that is heard as `heard`: an element of its own where the two
/// differ, else `parent`.
ElementId add_heard_as(Composer& composer, ElementId parent,
                       std::string_view text, std::string heard);
/// A blank to write on inside a text: "blank".
ElementId add_blank(Composer& composer, ElementId parent);
/// A square or ring to tick: "tick box"; several of them at once: "3 tick
/// boxes".
ElementId add_tick_boxes(Composer& composer, ElementId parent, int count = 1);
/// Lines to write on: "a line to write on", "4 lines to write on".
ElementId add_writing_lines(Composer& composer, ElementId parent,
                            int count = 1);
/// A grid to lay or write things in: "6 empty places for words".
ElementId add_empty_places(Composer& composer, ElementId parent, int count,
                           std::string_view things);
/// The dashed lines around cards: "12 cards to cut out along the dashed lines",
/// with the code that all of them have, if any: "; their code: XW8G".
ElementId add_cut_lines(Composer& composer, std::size_t cards,
                        std::string_view code = {});
/// A dashed line to fold the page along.
ElementId add_fold_line(Composer& composer);

/// Parts of a word one after the other, with a breath between: "rab, bit".
std::string heard_parts(std::span<const std::string> parts);
/// A grapheme as it is read out: "sh"; a split one, of which the paper shows
/// the room between, "a-blank-e"; an ending "ing, at the end", a prefix "un, at
/// the start".
std::string heard_grapheme(std::string_view grapheme);
/// A text without the signs that speech programs spell or swallow: "rain + ing
/// = raining" is heard "rain plus ing equals raining", "/sh/" as "the sound
/// sh", "a–e" as "a-blank-e".
std::string heard_signs(std::string_view text);

}  // namespace sheaf
