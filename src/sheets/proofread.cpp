// The learner writes sentences of their own, then checks and mends them in
// steps. On the page: lines to write on, steps with a square to tick, lines for
// the words that were mended. Nothing to correct is ever printed: what a
// learner sees misspelled may stay with them.

#include <algorithm>

#include "layout/heard.h"
#include "layout/numbered_steps.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::proofread_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    {"lines", Kind::count, "0", "lines to write on; 0 fills the page", "0",
     "20"},
    {"mended-words", Kind::count, "3", "lines for words that were mended", "0",
     "12"},
};

constexpr int kLeastLines = 2;

void add_steps(Composer& c) {
  const std::vector<TickStep> steps = {
      {"I read it aloud and touched each word."},
      {"It begins with a capital letter."},
      {"It ends with .  or  ?  or  !",
       "It ends with a stop, a question mark or an exclamation mark."},
      {"There is a space after each word."},
      {"I tapped the sounds of the hard words."},
  };
  add_subheading(c, c.style().text_size, "Check", 6_mm);
  add_tick_steps(c, c.style().learner_text(), steps, 1.5_mm);
}

// Lines side by side, as many as have room for a word of the lesson.
void add_mended(const SheetInput& in, Composer& c, const Ruling& ruling) {
  const int wanted = in.options.count("mended-words");
  if (wanted == 0) return;
  add_subheading(c, c.style().text_size, "Words I mended", 6_mm);
  const Length gap = 6_mm;
  const Length needed = std::max(50_mm, 8 * ruling.x_height);
  const int columns =
      std::clamp(static_cast<int>((c.width() + gap) / (needed + gap)), 1,
                 std::min(wanted, 3));
  const int count = wanted - wanted % columns;  // full rows only
  const Length width = (c.width() - gap * (columns - 1)) / columns;
  const ElementId lines = add_writing_lines(c, 0, count);
  for (int i = 0; i < count; ++i) {
    const int column = i % columns;
    if (column == 0) {
      c.block(set_height(ruling), i == 0 ? 1_mm : ruling.gap);
    }
    draw_set(c.blocks().back(), c.style(), ruling,
             {(width + gap) * column, 0_mm}, width, lines);
  }
}

int lines_fitting(Length height, const Ruling& ruling) {
  return static_cast<int>((height + ruling.gap - 1_mm) / set_pitch(ruling));
}

void compose(const SheetInput& in, Composer& c) {
  const Ruling ruling = ruling_of(in, c.style());
  add_subheading(c, c.style().text_size, "My sentences", 0_mm);
  const Length heading = height_of(c.blocks());
  const std::size_t after_heading = c.blocks().size();
  // How many lines there are turns out last, but they are heard first.
  const ElementId sentences = c.add(Role::section);
  add_steps(c);
  add_mended(in, c, ruling);
  // What stands below decides how many lines there is room for. Where that is
  // too few, the steps begin a page of their own.
  int lines = lines_fitting(c.body().height - height_of(c.blocks()), ruling);
  if (lines < kLeastLines) {
    lines = lines_fitting(c.body().height - heading, ruling);
    c.blocks()[after_heading].new_page = true;
  }
  if (in.options.count("lines") > 0) lines = in.options.count("lines");
  const auto place =
      c.blocks().begin() + static_cast<std::ptrdiff_t>(after_heading);
  const std::vector<Block> below(place, c.blocks().end());
  c.blocks().erase(place, c.blocks().end());
  add_sets(c, ruling, lines, 1_mm, sentences);
  c.blocks().insert(c.blocks().end(), below.begin(), below.end());
}

const SheetKind kKind = {
    .name = "proofread",
    .title = "Check my writing",
    .direction = "Write your own sentences. Check each step. Mend them.",
    .action = Action::write,
    .summary = "lines for sentences of one's own and steps to check them",
    .minutes = 9,
    .options = kOptions,
    .compose = compose,
    .script = sheet_script::proofread,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::proofread_sheet
