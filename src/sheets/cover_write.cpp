// The learner looks at a word, covers it, writes it from memory and checks it
// letter by letter. On the page: the words at the left, a dashed line to fold
// the page along, so that they go behind; beside each word lines to write it
// once or several times, each with a square to tick.

#include <algorithm>

#include "layout/heard.h"
#include "layout/ruled_lines.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::cover_write_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    kPractiseWordsOption,
    {"tries", Kind::count, "2",
     "times to write each word, as far as there is room", "1", "4"},
    {"tick-box", Kind::length, "7 mm", "side of the squares to tick", "4 mm",
     "12 mm"},
    {"fold-line", Kind::flag, "yes", "a dashed line to fold the words behind"},
};

constexpr Length kGap = 4_mm;   // on both sides of the fold
constexpr Length kNear = 2_mm;  // from a line to its square

struct Plan {
  Ruling ruling;
  TextStyle word;
  Length fold;  // where the page is folded
  int tries = 1;
  Length line;   // width to write on
  Length step;   // from one try to the next
  Length pitch;  // from one word to the next
  int rows = 1;  // on a page
  ElementId fold_line = kDecoration;
};

std::vector<const AnalyzedWord*> words_of(const SheetInput& in) {
  return practice_words(in.lesson, in.options.count("words"));
}

Length head_height(const Composer& c) {
  return c.style().learner_text().line_height() + 2_mm;
}

Plan plan_columns(const SheetInput& in, Composer& c,
                  const std::vector<const AnalyzedWord*>& words) {
  Plan plan;
  plan.ruling = ruling_of(in, c.style());
  const Length by_hand =
      scaled(widest_by_hand(words, plan.ruling.x_height), 1.1);
  // The words may take what one try leaves over, but no less than a quarter.
  const Length box = in.options.length("tick-box") + kNear;
  const Length rest = c.width() - kGap * 2 - box - by_hand;
  plan.word = c.style().text(c.style().word_size);
  const Length widest = widest_word(c, plan.word, words);
  const Length room = std::max(rest, c.width() / 4);
  plan.word = fitted_style(plan.word, widest, room);
  plan.fold = std::max(std::min(widest, room) + kGap, 36_mm);
  const Length writing = c.width() - plan.fold - kGap;
  plan.tries = in.options.count("tries");
  const auto line_width = [&](int tries) {
    return (writing - kGap * (tries - 1)) / tries - box;
  };
  while (plan.tries > 1 && line_width(plan.tries) < by_hand) --plan.tries;
  plan.line = line_width(plan.tries);
  plan.step = plan.line + box + kGap;
  return plan;
}

void plan_rows(Composer& c, Plan& plan, int words) {
  const Length height = c.body().height - head_height(c);
  const Length least = set_pitch(plan.ruling);
  const auto capacity = static_cast<int>((height + plan.ruling.gap) / least);
  plan.rows = even_rows(words, capacity);
  plan.pitch = std::clamp(height / plan.rows, least, scaled(least, 1.4));
}

void draw_fold(const SheetInput& in, const Composer& c, const Plan& plan,
               Block& block, Length height) {
  if (!in.options.flag("fold-line")) return;
  block.line({plan.fold, 0_mm}, {plan.fold, height}, fold_stroke(c.style()),
             plan.fold_line);
}

// A tick as the hand makes it.
void draw_tick(Block& block, const Style& style, Point middle, Length side,
               ElementId element) {
  const Stroke stroke{.width = style.box_weight * 3 / 2, .round_ends = true};
  const Point low{middle.x - side / 10, middle.y + side * 3 / 8};
  block.line({middle.x - side * 3 / 8, middle.y}, low, stroke, element);
  block.line(low, {middle.x + side * 3 / 8, middle.y - side * 3 / 8}, stroke,
             element);
}

void add_head(const SheetInput& in, Composer& c, const Plan& plan,
              ElementId table) {
  const TextStyle style = c.style().learner_text();
  const Length base = baseline_in_line(style);
  const Length box = in.options.length("tick-box");
  const ElementId row = c.add(Role::table_row, table);
  Block& block = c.block(head_height(c));
  block.keep_with_next = true;
  const auto cell = [&](std::string_view text, Length x) {
    const ElementId head = add_head_cell(c, row);
    draw_text(c, block, style, text, {x, base}, head);
    return head;
  };
  cell("Look", 0_mm);
  for (int i = 0; i < plan.tries; ++i) {
    const Length x = plan.fold + kGap + plan.step * i;
    const ElementId head = cell(i == 0 ? "Write " : "Write again ", x);
    const Length middle =
        base - at_size(*style.font, style.size, style.font->x_height()) / 2;
    draw_tick(block, c.style(), {x + plan.line + kNear + box / 2, middle},
              box * 3 / 4, add_heard(c, head, "and tick"));
  }
  draw_fold(in, c, plan, block, block.height);
}

void add_word(const SheetInput& in, Composer& c, const Plan& plan,
              const AnalyzedWord& word, ElementId table) {
  const From from(c, word.spelling.span);
  Block& block = c.block(plan.pitch);
  const ElementId row = c.add(Role::table_row, table);
  const Length base = base_in_set(plan.ruling);
  draw_text(c, block, plan.word, word.reading.word, {0_mm, base},
            add_head_cell(c, row, Scope::row));
  const Length box = in.options.length("tick-box");
  for (int i = 0; i < plan.tries; ++i) {
    const ElementId cell = add_data_cell(c, row);
    const Length x = plan.fold + kGap + plan.step * i;
    draw_set(block, c.style(), plan.ruling, {x, 0_mm}, plan.line,
             add_writing_lines(c, cell));
    block.frame({x + plan.line + kNear, base - box, box, box},
                {.width = c.style().box_weight}, add_tick_boxes(c, cell));
  }
  draw_fold(in, c, plan, block, plan.pitch);
}

void compose(const SheetInput& in, Composer& c) {
  const auto words = words_of(in);
  Plan plan = plan_columns(in, c, words);
  plan_rows(c, plan, static_cast<int>(words.size()));
  if (in.options.flag("fold-line")) {
    const From from(c, in.options.span("fold-line"));
    plan.fold_line = add_fold_line(c);
  }
  const ElementId table = c.add(Role::table);
  add_head(in, c, plan, table);
  const auto head = repeated_head(c.blocks().back());
  for (std::size_t i = 0; i < words.size(); ++i) {
    add_word(in, c, plan, *words[i], table);
    Block& block = c.blocks().back();
    block.head = head;
    const bool first = i % static_cast<std::size_t>(plan.rows) == 0;
    block.new_page = i > 0 && first;
    if ((i + 1) % static_cast<std::size_t>(plan.rows) == 0) {
      block.height = set_height(plan.ruling);
    }
  }
}

std::string missing(const SheetInput& in) {
  return words_of(in).empty() ? "no word has the pattern" : "";
}

Direction other_direction(const SheetInput& in) {
  if (in.options.flag("fold-line")) return {};
  return {"Look and say it. Cover it. Write it. Check each letter.",
          Action::write};
}

const SheetKind kKind = {
    .name = "cover-write",
    .title = "Look, cover, write, check",
    .direction = "Look and say it. Fold it away. Write it. Check each letter.",
    .action = Action::write,
    .other_direction = other_direction,
    .summary = "words to look at, fold away, write from memory and check",
    .part = DayPart::spell,
    .minutes = 8,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::cover_write,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::cover_write_sheet
