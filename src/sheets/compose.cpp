// The learner makes sentences of their own with the words of the week, told to
// someone who writes them down or written by hand. On the page: the words in a
// box, lines as tall as the learner writes, a line that says who wrote.

#include <algorithm>

#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"line-height", Kind::length, "6 mm", "height of small letters", "3 mm",
     "15 mm"},
    {"lines", Kind::count, "0", "lines to write on; 0 fills the page", "0",
     "40"},
    {"word-bank", Kind::flag, "yes", "the words of the week in a box"},
};

// The words in rows, as wide apart as the longest needs, inside a frame.
void add_word_bank(const SheetInput& in, Composer& c) {
  const TextStyle style = c.style().text(c.style().text_size);
  const Length pad = 4_mm;
  Length widest;
  for (const AnalyzedWord& w : in.lesson.words) {
    widest = std::max(widest, width_of(c.shape(style, w.reading.word)));
  }
  const int columns = static_cast<int>(std::max<std::int64_t>(
      1, (c.width() - 2 * pad) / (widest + 8_mm)));
  const Length step = (c.width() - 2 * pad) / columns;
  const int count = static_cast<int>(in.lesson.words.size());
  const int rows = (count + columns - 1) / columns;
  const Length row = scaled(style.size, 1.6);
  const ElementId list = c.add(Role::list);
  Block& block = c.block(row * rows + pad);
  block.frame({0_mm, 0_mm, c.width(), block.height},
              {c.style().box_weight, kBlack, {}, false});
  for (int i = 0; i < count; ++i) {
    const ElementId item = c.add(Role::list_item, list);
    const ElementId body = c.add(Role::list_body, item);
    const Length y = pad / 2 + row * (i / columns) +
                     (row - style.line_height()) / 2 + baseline_in_line(style);
    draw_text(c, block, style, in.lesson.words[i].reading.word,
              {pad + step * (i % columns), y}, body);
  }
}

void add_authors(Composer& c) {
  const TextStyle style = c.style().learner_text();
  Block& block = c.block(14_mm, 2_mm);
  const ElementId element = c.add(Role::paragraph);
  const Stroke line{c.style().box_weight, kBlack, {}, false};
  const Length base = 9_mm;
  const Length half = c.width() / 2;
  const Length told =
      draw_text(c, block, style, "Told to", {0_mm, base}, element);
  block.line({told + 2_mm, base}, {half - 4_mm, base}, line);
  const Length written =
      draw_text(c, block, style, "Written by", {half, base}, element);
  block.line({half + written + 2_mm, base}, {c.width(), base}, line);
}

void compose(const SheetInput& in, Composer& c) {
  Ruling ruling = c.style().ruling;
  ruling.x_height = in.options.length("line-height");
  Length used = 16_mm;
  if (in.options.flag("word-bank")) {
    add_word_bank(in, c);
    used += c.blocks().back().height + 5_mm;
  }
  const Length left = c.body().height - used;
  const int fitting =
      std::max<int>(1, static_cast<int>((left + ruling.gap) /
                                        set_pitch(ruling)));
  const int asked = in.options.count("lines");
  const int lines = asked == 0 ? fitting : asked;
  for (int i = 0; i < lines; ++i) {
    Block& block =
        c.block(set_pitch(ruling), i == 0 && used > 16_mm ? 5_mm : 0_mm);
    draw_set(block, c.style(), ruling, {}, c.width());
  }
  c.blocks().back().keep_with_next = true;
  c.blocks().back().height = set_height(ruling);
  add_authors(c);
}

std::string missing(const SheetInput& in) {
  return in.lesson.words.empty() ? "the lesson has no words" : "";
}

const SheetKind kKind = {
    .name = "compose",
    .title = "My own sentences",
    .direction = "Choose a word. Say a sentence with it. Write it or tell it.",
    .action = Action::write,
    .summary = "the words of the week and lines for sentences of one's own",
    .minutes = 15,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf
