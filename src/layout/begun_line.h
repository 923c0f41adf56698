#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "layout/text_block.h"

namespace sheaf {

/// A line to write on where something is printed already, in letters as tall as
/// the learner's. What is printed stands on the base line alone; the ruling is
/// drawn only where there is something to write, for no line may run through
/// letters.

/// The style of print on the lines of this ruling.
TextStyle line_print(const Style& style, const Ruling& ruling);

/// Printed text at the left of a line, then room to write: the first words of a
/// sentence, or, with nothing to write behind it, a word that is done. Drawn
/// with its top left corner at `at`, heard as the text within `parent`, then as
/// a line to write on. `heard` is said in place of a text with signs.
void draw_begun_line(Composer& composer, Block& block, const Ruling& ruling,
                     std::string_view text, Point at, Length width,
                     ElementId parent, bool to_write = true,
                     std::string heard = {});

/// How wide the text is on such a line, with the blank before it.
Length begun_width(Composer& composer, const Ruling& ruling,
                   std::string_view text);

/// A word of which some letters are printed and the others left to write, as
/// wide as a hand needs them. `given` has a flag for each byte. Heard as "sh
/// printed, then room for 2 letters".
void draw_gapped_word(Composer& composer, Block& block, const Ruling& ruling,
                      std::string_view word, const std::vector<bool>& given,
                      Point at, Length width, ElementId parent);
Length gapped_width(Composer& composer, const Ruling& ruling,
                    std::string_view word, const std::vector<bool>& given);

}  // namespace sheaf
