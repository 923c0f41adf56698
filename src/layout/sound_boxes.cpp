#include "layout/sound_boxes.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/ruled_lines.h"
#include "layout/strokes.h"
#include "layout/text_block.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kTapRoom = 5.5_mm;
constexpr int kMostInRow = 10;

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
  for (std::size_t i = 0; i < row.size(); ++i) {
    const SoundBox& box = row[i];
    if (i > 0 && box.starts_beat) width += measures.beat_gap();
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

// Where to break boxes that do not fit one row: the start of a beat that
// leaves the two parts most alike, or any box that begins a grapheme.
std::size_t best_break(std::span<const SoundBox> boxes) {
  std::size_t best = 0;
  std::ptrdiff_t best_cost = 0;
  for (std::size_t i = 1; i < boxes.size(); ++i) {
    if (boxes[i].part > 0) continue;
    const auto left = static_cast<std::ptrdiff_t>(i);
    const auto right = static_cast<std::ptrdiff_t>(boxes.size()) - left;
    std::ptrdiff_t cost = 2 * std::abs(left - right);
    if (!boxes[i].starts_beat) cost += 100;
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

bool is_filled(const SoundBox& box, bool is_first,
               const BoxRowOptions& options) {
  return options.fill == BoxFill::all ||
         (options.fill == BoxFill::first && is_first && options.first_row) ||
         (options.fill == BoxFill::pattern && box.of_pattern) ||
         (options.fill == BoxFill::given && box.given);
}

// The letter in the slot belongs to a grapheme that began in a box before.
bool is_slot_filled(const SoundBox& box, bool is_first,
                    const BoxRowOptions& options) {
  if (options.fill == BoxFill::pattern) return box.slot_of_pattern;
  if (options.fill == BoxFill::given) return box.slot_given;
  return is_filled(box, is_first, options);
}

TextStyle printed_style(const BoxRowOptions& options, Length x_height) {
  TextStyle text = options.text;
  text.size = size_for_x_height(*text.font, x_height);
  return text;
}

// A letter for each of its boxes: e and d of an ending that is two sounds.
bool has_letter_for_each(const SoundBox& box) {
  return box.parts > 1 &&
         box.letters.size() == static_cast<std::size_t>(box.parts);
}

// The letters of a grapheme over all the boxes that it is written across.
void write_letters(Composer& composer, Block& block, const SoundBox& box,
                   const BoxMeasures& measures, const TextStyle& text, Length x,
                   Length base, ElementId element) {
  if (has_letter_for_each(box)) {
    Length middle = x + measures.width / 2;
    for (const char& letter : box.letters) {
      draw_centred(composer, block, text, std::string_view(&letter, 1),
                   {middle, base}, element);
      middle += measures.width;
    }
    return;
  }
  const Length middle = x + measures.width * box.parts / 2;
  draw_centred(composer, block, text, box.letters, {middle, base}, element);
}

// The dashed wall between two boxes of a grapheme, left out where a letter
// stands across it.
void draw_inner_wall(Block& block, Point top, const BoxMeasures& measures,
                     bool letter_across, const Stroke& dashed,
                     ElementId element) {
  const Length bottom = top.y + measures.height();
  if (!letter_across) {
    block.line(top, {top.x, bottom}, dashed, element);
    return;
  }
  const Length base = top.y + measures.base();
  block.line(top, {top.x, base - measures.x_height - 1_mm}, dashed, element);
  block.line({top.x, base + 1_mm}, {top.x, bottom}, dashed, element);
}

}  // namespace

Length printed_box_width(Composer& composer,
                         std::span<const std::vector<SoundBox>> words,
                         Length x_height, const BoxRowOptions& options) {
  const TextStyle text = printed_style(options, x_height);
  const Length air = scaled(x_height, 0.5);
  Length widest;
  for (const auto& word : words) {
    for (std::size_t i = 0; i < word.size(); ++i) {
      const SoundBox& box = word[i];
      if (box.part > 0 || !is_filled(box, i == 0, options)) continue;
      const Length wide = width_of(composer.shape(text, box.letters)) + air;
      widest = std::max(widest, wide / box.parts);
    }
  }
  return widest;
}

std::vector<std::vector<SoundBox>> box_rows(const std::vector<SoundBox>& boxes,
                                            const BoxMeasures& measures,
                                            Length width) {
  std::vector<std::vector<SoundBox>> rows;
  if (!boxes.empty()) break_rows(boxes, measures, width, rows);
  return rows;
}

void fit_beat_gaps(std::span<const std::vector<SoundBox>> words, Length width,
                   BoxMeasures& measures) {
  BoxMeasures without = measures;
  without.beat_share = 0;
  for (const int share : {30, 20, 12}) {
    measures.beat_share = share;
    const bool fits = std::ranges::all_of(words, [&](const auto& word) {
      return box_rows(word, measures, width).size() <=
             box_rows(word, without, width).size();
    });
    if (fits) return;
  }
}

namespace {

// ", in beats of 3 and 2"; nothing for a word of one beat.
std::string heard_beats(std::span<const SoundBox> word) {
  std::vector<int> sizes = {0};
  for (const SoundBox& box : word) {
    if (box.starts_beat) sizes.push_back(0);
    ++sizes.back();
  }
  if (sizes.size() < 2) return {};
  const int last = sizes.back();
  sizes.pop_back();
  return fmt::format(", in beats of {} and {}", fmt::join(sizes, ", "), last);
}

}  // namespace

std::string heard_boxes(std::span<const SoundBox> word, int rows,
                        const BoxRowOptions& options) {
  const auto filled = [&](std::size_t i) {
    return is_filled(word[i], i == 0, options);
  };
  bool any_filled = false;
  std::string inside, others;
  for (std::size_t i = 0; i < word.size(); ++i) {
    const SoundBox& box = word[i];
    any_filled |= filled(i);
    if (box.part == 0) {
      inside += i == 0 ? "" : ", ";
      inside += filled(i) ? box.letters : "empty";
      const auto end = i + static_cast<std::size_t>(box.parts);
      if (box.parts > 1 && filled(i)) {
        inside += fmt::format(" over {} boxes", box.parts);
      } else if (box.parts > 1) {
        others += fmt::format(", boxes {} {} {} joined", i + 1,
                              box.parts == 2 ? "and" : "to", end);
      }
    }
    if (box.slot_after.empty() || !options.slots) continue;
    const std::string where =
        i + 1 == word.size() ? "then" : fmt::format("after box {}", i + 1);
    others +=
        is_slot_filled(box, i == 0, options)
            ? fmt::format(", {} {} in a narrow slot", where, box.slot_after)
            : fmt::format(", {} a narrow slot for the silent {}", where,
                          box.slot_after);
  }
  std::string heard =
      fmt::format("{}{} {}", word.size(), any_filled ? "" : " empty",
                  word.size() == 1 ? "box" : "boxes");
  if (rows > 1) heard += fmt::format(" in {} rows", rows);
  heard += heard_beats(word);
  if (any_filled) heard += ": " + inside;
  heard += others;
  if (options.tap_dots) {
    heard += word.size() == 1 ? "; a dot to tap over the box"
                              : "; a dot to tap over each box";
  }
  return heard;
}

void draw_box_row(Composer& composer, Block& block,
                  std::span<const SoundBox> row, const BoxMeasures& measures,
                  const BoxRowOptions& options, Point at, ElementId element) {
  const Style& style = composer.style();
  const Stroke wall{.width = style.box_weight};
  const Stroke guide = thin_stroke(style);
  const Stroke dashed = slot_stroke(style);
  const Length top = at.y + kTapRoom;
  const Length base = top + measures.base();
  const Length inset = 1.5_mm;
  const TextStyle text =
      printed_style(options, scaled(measures.x_height, options.print));
  Length x = at.x;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const SoundBox& box = row[i];
    const bool filled = is_filled(box, i == 0, options);
    if (i > 0 && box.starts_beat) x += measures.beat_gap();
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
        draw_inner_wall(block, {x + measures.width * part, top}, measures,
                        filled && !has_letter_for_each(box), dashed, element);
      }
    }
    block.line({x + inset, base}, {x + measures.width - inset, base}, guide,
               element);
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
      if (is_slot_filled(box, i == 0, options)) {
        draw_centred(composer, block, text, box.slot_after,
                     {x + measures.slot_width / 2, base}, element);
      }
      x += measures.slot_width;
    }
  }
}

}  // namespace sheaf
