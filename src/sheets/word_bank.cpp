#include "sheets/word_bank.h"

#include <algorithm>

#include "layout/text_block.h"
#include "sheets/word_parts.h"

namespace sheaf {

using namespace literals;

void add_word_bank(Composer& c, const std::vector<const AnalyzedWord*>& words,
                   Length size) {
  const TextStyle style =
      c.style().text(size > 0_mm ? size : c.style().text_size);
  const Length pad = 4_mm;
  const Length widest = widest_word(c, style, words);
  const int most = static_cast<int>(
      std::max<std::int64_t>(1, (c.width() - 2 * pad) / (widest + 8_mm)));
  const int count = static_cast<int>(words.size());
  const int rows = (count + most - 1) / most;
  // Several rows are about equally long: none has a word alone.
  const int columns = rows > 1 ? even_rows(count, most) : most;
  const Length step = (c.width() - 2 * pad) / columns;
  const Length row = scaled(style.size, 1.6);
  const ElementId list = c.add(Role::list);
  Block& block = c.block(row * rows + pad);
  block.frame({0_mm, 0_mm, c.width(), block.height},
              {.width = c.style().box_weight});
  for (int i = 0; i < count; ++i) {
    const AnalyzedWord& word = *words[static_cast<std::size_t>(i)];
    const From from(c, word.spelling.span);
    const ElementId body = add_list_body(c, list);
    const Length y = pad / 2 + row * (i / columns) +
                     (row - style.line_height()) / 2 + baseline_in_line(style);
    draw_text(c, block, style, word.reading.word,
              {pad + step * (i % columns), y}, body);
  }
}

}  // namespace sheaf
