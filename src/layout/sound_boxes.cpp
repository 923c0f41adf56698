#include "layout/sound_boxes.h"

#include <algorithm>

#include "layout/ruled_lines.h"
#include "layout/text_block.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kTapRoom = 5.5_mm;
constexpr int kMostInRow = 10;
constexpr Ink kGuide = 110;

}  // namespace

BoxMeasures measure_boxes(std::span<const std::vector<SoundBox>> words,
                          Length x_height, Length least_width) {
  // Air at both sides of the letters, so that they need not touch the walls.
  const Length air = scaled(x_height, 0.35);
  Length widest = least_width;
  for (const auto& word : words) {
    for (const SoundBox& box : word) {
      const Length needed = hand_width(box.letters, x_height) + air;
      widest = std::max(widest, needed / box.parts);
    }
  }
  return {widest, hand_width("e", x_height) + air + 2_mm, x_height};
}

Length row_width(std::span<const SoundBox> row, const BoxMeasures& measures) {
  Length width;
  for (const SoundBox& box : row) {
    width += measures.width;
    if (!box.slot_after.empty()) width += measures.slot_width;
  }
  return width;
}

Length row_height(const BoxMeasures& measures) {
  return kTapRoom + measures.height();
}

namespace {

bool fits(std::span<const SoundBox> row, const BoxMeasures& measures,
          Length width) {
  return row.size() <= kMostInRow && row_width(row, measures) <= width;
}

// Where to break boxes that do not fit one row: the start of a syllable that
// leaves the two parts most alike, or any box that begins a grapheme.
std::size_t best_break(std::span<const SoundBox> boxes) {
  std::size_t best = 0;
  std::ptrdiff_t best_cost = 0;
  for (std::size_t i = 1; i < boxes.size(); ++i) {
    if (boxes[i].part > 0) continue;
    const auto left = static_cast<std::ptrdiff_t>(i);
    const auto right = static_cast<std::ptrdiff_t>(boxes.size()) - left;
    std::ptrdiff_t cost = 2 * std::abs(left - right);
    if (!boxes[i].starts_syllable) cost += 100;
    if (best == 0 || cost < best_cost) {
      best = i;
      best_cost = cost;
    }
  }
  return best;
}

void break_rows(std::span<const SoundBox> boxes, const BoxMeasures& measures,
                Length width, std::vector<std::vector<SoundBox>>& rows) {
  const std::size_t at = fits(boxes, measures, width) ? 0 : best_break(boxes);
  if (at == 0) {
    rows.emplace_back(boxes.begin(), boxes.end());
    return;
  }
  break_rows(boxes.first(at), measures, width, rows);
  break_rows(boxes.subspan(at), measures, width, rows);
}

// The letters of a grapheme over all the boxes that it is written across.
void write_letters(Composer& composer, Block& block, const SoundBox& box,
                   const BoxMeasures& measures, const TextStyle& text, Length x,
                   Length base, ElementId element) {
  const Length middle = x + measures.width * box.parts / 2;
  draw_centred(composer, block, text, box.letters, {middle, base}, element);
}

}  // namespace

std::vector<std::vector<SoundBox>> box_rows(const std::vector<SoundBox>& boxes,
                                            const BoxMeasures& measures,
                                            Length width) {
  std::vector<std::vector<SoundBox>> rows;
  if (!boxes.empty()) break_rows(boxes, measures, width, rows);
  return rows;
}

void draw_box_row(Composer& composer, Block& block,
                  std::span<const SoundBox> row, const BoxMeasures& measures,
                  const BoxRowOptions& options, Point at, ElementId element) {
  const Style& style = composer.style();
  const Stroke wall{style.box_weight, kBlack, {}, false};
  const Stroke guide{style.guide_weight, kGuide, {}, false};
  const Stroke dashed{style.guide_weight, 60, {2_mm, 1.5_mm}, false};
  const Length top = at.y + kTapRoom;
  const Length base = top + measures.base();
  const Length inset = 1.5_mm;
  TextStyle text = options.text;
  text.size = size_for_x_height(*text.font, measures.x_height);
  Length x = at.x;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const SoundBox& box = row[i];
    if (options.tap_dots) {
      block.dot({x + measures.width / 2, at.y + options.tap_dot / 2 + 1_mm},
                options.tap_dot, element);
    }
    if (box.part == 0) {
      // One frame around all boxes of a grapheme, dashed lines within.
      const int parts = std::min<int>(box.parts, static_cast<int>(row.size()));
      block.frame({x, top, measures.width * parts, measures.height()}, wall,
                  element);
      for (int part = 1; part < parts; ++part) {
        const Length inner = x + measures.width * part;
        block.line({inner, top}, {inner, top + measures.height()}, dashed,
                   element);
      }
    }
    block.line({x + inset, base}, {x + measures.width - inset, base}, guide,
               element);
    const bool filled =
        options.fill == BoxFill::all ||
        (options.fill == BoxFill::first && i == 0 && options.first_row) ||
        (options.fill == BoxFill::pattern && box.of_pattern);
    if (filled && box.part == 0) {
      write_letters(composer, block, box, measures, text, x, base, element);
    }
    x += measures.width;
    if (box.slot_after.empty()) continue;
    if (options.slots) {
      block.frame({x + 1_mm, top + 1_mm, measures.slot_width - 2_mm,
                   measures.height() - 2_mm},
                  dashed, element);
      block.line({x + inset, base}, {x + measures.slot_width - inset, base},
                 guide, element);
      if (filled) {
        draw_centred(composer, block, text, box.slot_after,
                     {x + measures.slot_width / 2, base}, element);
      }
      x += measures.slot_width;
    }
  }
}

}  // namespace sheaf
