#pragma once

#include <span>
#include <string>
#include <string_view>

#include "layout/text_block.h"
#include "layout/touch_marks.h"

namespace sheaf {

/// A word of which some graphemes are shaded, with a line under them: they do
/// not say what a learner expects.

/// "said, ai underlined"; "come, o with e underlined"; the word alone where
/// nothing is shaded.
std::string heard_shaded(std::string_view word,
                         std::span<const Grapheme> graphemes);

/// Draws it with its baseline at `base`, in an element that says
/// `heard_shaded`.
void draw_shaded(Composer& composer, Block& block, const TextStyle& style,
                 std::string_view word, std::span<const Grapheme> graphemes,
                 Point base, ElementId element);

}  // namespace sheaf
