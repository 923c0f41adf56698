#pragma once

#include <cstddef>
#include <functional>

#include "layout/block.h"
#include "sheets/sheet.h"

namespace sheaf {

/// From the edge of a cell to its text, in tables with learners down.
inline constexpr Length kLearnerPad = Length::from_mm(2);

/// A row for each learner below the head of a table, the last block so far,
/// which stands again on each page: the learner's code (or a line for it), then
/// so many empty cells. `draw` puts the walls and what else stands in a row.
/// The sheet has the options of `learner_rows`.
void add_learner_rows(const SheetInput& input, Composer& composer,
                      ElementId table, std::size_t cells,
                      const std::function<void(Block&)>& draw);

/// What scores do not say, below the table and never alone on a page.
void add_caution_below(Composer& composer, Length above);

}  // namespace sheaf
