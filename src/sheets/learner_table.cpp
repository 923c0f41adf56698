#include "sheets/learner_table.h"

#include "layout/table.h"
#include "layout/text_block.h"
#include "sheets/caution.h"
#include "sheets/common_options.h"

namespace sheaf {

void add_learner_rows(const SheetInput& input, Composer& composer,
                      ElementId table, std::size_t cells,
                      const std::function<void(Block&)>& draw) {
  const auto head = repeated_head(composer.blocks().back());
  for (const std::string& code : learner_rows(input)) {
    Block& block = composer.block(input.options.length("row-height"));
    block.head = head;
    const ElementId row = composer.add(Role::table_row, table);
    draw_learner(composer, block, code, kLearnerPad, row);
    for (std::size_t k = 0; k < cells; ++k) add_data_cell(composer, row);
    draw(block);
  }
}

void add_caution_below(Composer& composer, Length above) {
  composer.blocks().back().keep_with_next = true;
  add_paragraph(composer, composer.style().teacher_text(), kCaution,
                {.space_before = above});
}

}  // namespace sheaf
