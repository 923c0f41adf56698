#include "layout/fill_in.h"

#include "layout/heard.h"
#include "layout/text_block.h"

namespace sheaf {

void add_fill_in_lines(Composer& composer,
                       const std::vector<std::string>& labels,
                       Length space_before) {
  const TextStyle text = composer.style().teacher_text();
  const Length gap = Length::from_mm(6);
  const Length near = Length::from_mm(2);
  const auto count = static_cast<std::int64_t>(labels.size());
  const Length width = (composer.width() - gap * (count - 1)) / count;
  // High enough for handwriting above the line.
  const Length base = Length::from_mm(7);
  Block& block = composer.block(base + near, space_before);
  Length x;
  for (const std::string& label : labels) {
    const ElementId paragraph = composer.add(Role::paragraph);
    const Length wide =
        draw_text(composer, block, text, label, {x, base}, paragraph);
    block.line({x + wide + near, base}, {x + width, base},
               {.width = composer.style().box_weight},
               add_blank(composer, paragraph));
    x += width + gap;
  }
}

}  // namespace sheaf
