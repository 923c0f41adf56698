#pragma once

#include <vector>

#include "layout/page.h"
#include "pdf/structure_tree.h"

namespace sheaf {

/// Which texts of a page need a word space behind them, mark by mark, so that
/// the words of two pieces never run together for those who hear, search or
/// copy them: cells of a table, a gap and what follows it, one line and the
/// next. Pieces that touch on one line are one word (a grapheme in bold and
/// the rest), and a space that the text has already is enough. Where an
/// element's text is stated in place of its marks, the tree is told instead.
/// `shift` is added to the elements of the page to get those of the tree.
std::vector<bool> find_word_spaces(const Page& page, StructureTree& tree,
                                   ElementId shift);

}  // namespace sheaf
