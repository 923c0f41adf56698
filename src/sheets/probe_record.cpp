// For the teacher, beside the pages of one form of a probe: learners down, and
// for each room to copy what was not right, then two boxes for the counts. The
// counts are the same for every form, so they stand in the head.

#include <fmt/format.h>

#include "layout/fill_in.h"
#include "layout/heard.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "marking/letter_sequences.h"
#include "sheets/common_options.h"
#include "sheets/dictated.h"
#include "sheets/learner_table.h"
#include "sheets/sheet.h"

namespace sheaf::probe_record_sheet {
namespace {

using namespace literals;

constexpr OptionSpec kOptions[] = {
    kLearnersOption,
    learner_row_height_option("16 mm", "10 mm", "40 mm"),
    kNameWidthOption,
};

constexpr Length kPad = kLearnerPad;
constexpr Length kCount = 24_mm;

struct Widths {
  Length name, errors;
};

Widths widths_of(const SheetInput& in, const Composer& c) {
  const Length name = std::min(in.options.length("name-width"), c.width() / 3);
  return {name, c.width() - name - 2 * kCount};
}

void draw_walls(Composer& c, Block& block, const Widths& widths) {
  const Stroke wall{.width = c.style().box_weight};
  Length x;
  for (const Length step : {0_mm, widths.name, widths.errors, kCount, kCount}) {
    x += step;
    block.line({x, 0_mm}, {x, block.height}, wall);
  }
  block.line({0_mm, block.height}, {x, block.height}, thin_stroke(c.style()));
}

// Two lines in the head: what is counted, and of how many.
void draw_count_head(Composer& c, Block& block, std::string_view what, int of,
                     Length left, ElementId row) {
  const TextStyle bold = c.style().teacher_text(true);
  const ElementId cell = add_head_cell(c, row);
  const Length middle = left + kCount / 2;
  const Length base = 1_mm + baseline_in_line(bold);
  draw_centred(c, block, bold, what, {middle, base}, cell);
  draw_centred(c, block, c.style().teacher_text(), fmt::format("of {}", of),
               {middle, base + bold.line_height()}, cell);
}

void add_head(const SheetInput& in, Composer& c, const Widths& widths,
              ElementId table) {
  const auto [words, sentences] = dictated_in_packet(in);
  int pairs = 0;
  for (const AnalyzedWord& word : words) {
    pairs += letter_sequences(word.reading.word, "").possible;
  }
  const TextStyle bold = c.style().teacher_text(true);
  Block& block = c.block(bold.line_height() * 2 + 2_mm, 4_mm);
  block.keep_with_next = true;
  block.shade({0_mm, 0_mm, c.width(), block.height}, kHeadGround);
  const ElementId row = c.add(Role::table_row, table);
  const Length base = 1_mm + bold.line_height() + baseline_in_line(bold);
  draw_learner_head(c, block, {kPad, base}, widths.name - 2 * kPad, row);
  draw_text(c, block, bold, "Not right, as it was written",
            {widths.name + kPad, base}, add_head_cell(c, row));
  draw_count_head(c, block, "Words", static_cast<int>(words.size()),
                  widths.name + widths.errors, row);
  draw_count_head(c, block, "Pairs", pairs,
                  widths.name + widths.errors + kCount, row);
  draw_walls(c, block, widths);
  block.line({0_mm, 0_mm}, {c.width(), 0_mm}, {.width = c.style().box_weight});
}

void compose(const SheetInput& in, Composer& c) {
  const TextStyle text = c.style().teacher_text();
  add_paragraph(c, text,
                "Copy what was not right with its number, as in “3 fis”, and a "
                "dot for a word left blank. Typed into the record form of this "
                "probe, it is counted by Sheaf: words, and pairs of letters.");
  add_fill_in_lines(c, {"Dictated on", "By"}, 3_mm);
  const Widths widths = widths_of(in, c);
  const ElementId table = c.add(Role::table);
  add_head(in, c, widths, table);
  constexpr std::size_t kCells = 3;  // errors, words, pairs
  add_learner_rows(in, c, table, kCells,
                   [&](Block& block) { draw_walls(c, block, widths); });
  add_caution_below(c, 5_mm);
  even_pages(c.blocks(), c.body().height);
}

std::string missing(const SheetInput& in) {
  return dictated_in_packet(in).words.empty() ? "there are no words to dictate"
                                              : "";
}

const SheetKind kKind = {
    .name = "probe-record",
    .title = "What was written",
    .summary = "learners down, room to copy errors, words and pairs counted",
    .for_teacher = true,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::probe_record_sheet
