#include "sheets/dictation_numbers.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "layout/heard.h"
#include "layout/strokes.h"
#include "layout/text_block.h"

namespace sheaf {
namespace {

using namespace literals;

constexpr Length kBetween = 4_mm;
constexpr Length kLeastCell = 15_mm;
constexpr Length kMostCell = 60_mm;
constexpr int kMostInRow = 6;

// Cells in even rows: as wide as they are tall, as nearly as it goes.
struct Grid {
  int columns = 1;
  int rows = 1;
};

Grid plan_grid(int count, Length width, Length height) {
  Grid best{kMostInRow, (count + kMostInRow - 1) / kMostInRow};
  Length largest;
  for (int columns = 1; columns <= kMostInRow; ++columns) {
    const int rows = (count + columns - 1) / columns;
    const Length side = std::min(width / columns, height / rows);
    if (side > largest) {
      largest = side;
      best = {columns, rows};
    }
  }
  return best;
}

}  // namespace

void add_dictation_numbers(Composer& c, const Dictated& dictated) {
  const auto words = static_cast<int>(dictated.words.size());
  const auto sentences = static_cast<int>(dictated.sentences.size());
  const int count = words + sentences;
  if (count == 0) return;
  const Length page = c.body().height;
  const Grid grid = plan_grid(count, c.width(), page);
  const Length cell = std::clamp(
      (page - kBetween * (grid.rows - 1)) / grid.rows, kLeastCell, kMostCell);
  const Length pitch = (c.width() + kBetween) / grid.columns;
  const TextStyle style = c.style().text(
      std::min(scaled(cell, 0.6), scaled(pitch - kBetween, 0.7)), true);
  const Stroke wall{.width = c.style().box_weight};
  const ElementId list = c.add(Role::list);
  for (int i = 0; i < count; ++i) {
    const bool is_word = i < words;
    const auto index = static_cast<std::size_t>(is_word ? i : i - words);
    const From from(c, is_word ? dictated.words[index].spelling.span
                               : dictated.sentences[index].text.span());
    const int column = i % grid.columns;
    if (column == 0) c.block(cell, i == 0 ? 0_mm : kBetween);
    const Rect box{pitch * column, 0_mm, pitch - kBetween, cell};
    Block& block = c.blocks().back();
    // A sentence has a second frame: it takes more than a word.
    block.frame(box, wall);
    if (!is_word) {
      block.frame(
          {box.x + 1.5_mm, box.y + 1.5_mm, box.width - 3_mm, box.height - 3_mm},
          thin_stroke(c.style()));
    }
    const std::string number = fmt::format("{}", i + 1);
    draw_in_middle(c, block, style, number, box,
                   add_heard_as(c, add_list_body(c, list), number,
                                is_word ? number : number + ", a sentence"));
  }
}

}  // namespace sheaf
