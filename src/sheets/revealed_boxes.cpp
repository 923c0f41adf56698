#include "sheets/revealed_boxes.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/begun_line.h"
#include "layout/heard.h"
#include "layout/text_block.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kEar = 16_mm;
constexpr Length kLeft = 22_mm;
constexpr Length kBetweenRows = 3_mm;
constexpr Length kTapDot = 4_mm;

struct Large {
  BoxMeasures measures;
  std::vector<std::vector<SoundBox>> rows;

  Length height() const {
    return (row_height(measures) + kBetweenRows) *
           static_cast<std::int64_t>(rows.size());
  }
};

// As large as the page allows; many boxes are larger in two rows.
Large grown(Composer& c, const std::vector<SoundBox>& boxes,
            const BoxMeasures& least) {
  constexpr double kStep = 1.04;
  constexpr double kMost = 4;
  const Length room = c.width() - kLeft;
  Large result{least, box_rows(boxes, least, room)};
  const std::size_t most_rows =
      std::max<std::size_t>(result.rows.size(), boxes.size() > 6 ? 2 : 1);
  for (double scale = kStep; scale < kMost; scale *= kStep) {
    Large larger;
    larger.measures = {scaled(least.width, scale),
                       scaled(least.slot_width, scale),
                       scaled(least.x_height, scale)};
    larger.rows = box_rows(boxes, larger.measures, room);
    if (larger.rows.size() > most_rows ||
        row_width(larger.rows.front(), larger.measures) > room ||
        larger.height() > c.body().height) {
      break;
    }
    result = std::move(larger);
  }
  return result;
}

void add_slide(Composer& c, std::size_t number, const AnalyzedWord& word,
               const std::vector<SoundBox>& boxes, const Large& large,
               const BoxRowOptions& row_options, ElementId list) {
  BoxRowOptions options = row_options;
  Block& block = c.block(c.body().height);
  const From from(c, word.spelling.span);
  const auto [label, body] = add_list_item(c, list);
  Length y = (block.height - large.height()) / 2;
  const Length middle =
      y + row_height(large.measures) - large.measures.height() / 2;
  const TextStyle big = c.style().text(c.style().word_size);
  draw_text(c, block, big, fmt::format("{}", number),
            {0_mm, middle - kEar / 2 - 3_mm}, label);
  draw_ear(c, block, {0_mm, middle - kEar / 2}, kEar, body);
  const ElementId figure =
      c.add(Role::figure, body,
            heard_boxes(boxes, static_cast<int>(large.rows.size()), options));
  for (const auto& row : large.rows) {
    draw_box_row(c, block, row, large.measures, options, {kLeft, y}, figure);
    options.first_row = false;
    y += row_height(large.measures) + kBetweenRows;
  }
}

}  // namespace

void add_revealed_boxes(Composer& c, std::span<const AnalyzedWord* const> words,
                        const RevealedBoxes& options) {
  std::vector<std::vector<SoundBox>> all;
  for (const AnalyzedWord* word : words) all.push_back(boxes_of(*word));
  BoxRowOptions row;
  row.text = c.style().text(c.style().word_size);
  row.slots = options.slots;
  row.tap_dot = kTapDot;
  row.fill = BoxFill::all;
  const BoxMeasures least =
      measure_boxes(all, options.x_height,
                    std::max(options.least_box,
                             printed_box_width(c, all, options.x_height, row)));
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const Large large = grown(c, all[i], least);
    for (const BoxFill fill : {options.fill, BoxFill::all}) {
      row.fill = fill;
      add_slide(c, i + 1, *words[i], all[i], large, row, list);
    }
  }
}

}  // namespace sheaf
