// The learner looks at a word, covers it, writes it from memory and checks it
// letter by letter. On the page: the words at the left, a dashed line to fold
// the page along, so that they go behind; beside each word lines to write it
// once or several times, each with a square to tick. The first word is written
// and ticked in a box, "Like this", and some letters of the second are given.

#include <algorithm>

#include "layout/begun_line.h"
#include "layout/heard.h"
#include "layout/model_frame.h"
#include "layout/ruled_lines.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/given_letters.h"
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
    kModelOption,
};

constexpr Length kGap = 4_mm;   // on both sides of the fold
constexpr Length kNear = 2_mm;  // from a line to its square

struct Plan {
  Ruling ruling;
  TextStyle word;
  ModelRoom around;  // of the first word, if it is done
  Length left;       // of the words
  Length fold;       // where the page is folded
  int tries = 1;
  Length line;   // width to write on
  Length step;   // from one try to the next
  Length pitch;  // from one word to the next
  int rows = 1;  // on a page
  bool model = false;
  ElementId fold_line = kDecoration;
};

std::vector<const AnalyzedWord*> words_of(const SheetInput& in) {
  return practice_words(in.lesson, in.options.count("words"));
}

Length head_height(const Composer& c) {
  return c.style().learner_text().line_height() + 2_mm;
}

Plan plan_columns(const SheetInput& in, Composer& c,
                  const std::vector<const AnalyzedWord*>& words, bool model) {
  Plan plan;
  plan.model = model;
  if (model) {
    plan.around = model_room(c.style());
    plan.left = model_room(c.style()).side;
  }
  plan.ruling = ruling_of(in, c.style());
  const Length all = c.width() - 2 * plan.left;
  const Length by_hand =
      scaled(widest_by_hand(words, plan.ruling.x_height), 1.1);
  // The words may take what one try leaves over, but no less than a quarter.
  const Length box = in.options.length("tick-box") + kNear;
  const Length rest = all - kGap * 2 - box - by_hand;
  plan.word = c.style().text(c.style().word_size);
  const Length widest = widest_word(c, plan.word, words);
  const Length room = std::max(rest, all / 4);
  plan.word = fitted_style(plan.word, widest, room);
  plan.fold = plan.left + std::max(std::min(widest, room) + kGap, 36_mm);
  // The fold does not run through the head of the box.
  if (model) {
    plan.fold = std::max(plan.fold, model_head_right(c) + 1_mm);
  }
  const Length writing = c.width() - plan.left - plan.fold - kGap;
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
  const Length height = c.body().height - head_height(c) - plan.around.height();
  const Length least = set_pitch(plan.ruling);
  const auto capacity = static_cast<int>((height + plan.ruling.gap) / least);
  plan.rows = even_rows(words, capacity);
  plan.pitch = std::clamp(height / plan.rows, least, scaled(least, 1.4));
}

// The first word is done where that costs no page and no try.
Plan plan_page(const SheetInput& in, Composer& c,
               const std::vector<const AnalyzedWord*>& words) {
  const auto count = static_cast<int>(words.size());
  Plan plain = plan_columns(in, c, words, false);
  plan_rows(c, plain, count);
  if (!is_model_asked(in.options, words.size())) return plain;
  Plan with = plan_columns(in, c, words, true);
  plan_rows(c, with, count);
  const auto pages = [&](const Plan& plan) {
    return (count + plan.rows - 1) / plan.rows;
  };
  const bool fits =
      begun_width(c, with.ruling, words.front()->reading.word) <= with.line;
  return fits && with.tries == plain.tries && pages(with) == pages(plain)
             ? with
             : plain;
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
  cell("Look", plan.left);
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

// A line for one try: empty, or as much of the word on it as is given.
void draw_try(Composer& c, Block& block, const Plan& plan,
              const AnalyzedWord& word, std::size_t index, Point at,
              ElementId cell) {
  const std::string& text = word.reading.word;
  if (plan.model && index == 0) {
    draw_begun_line(c, block, plan.ruling, text, at, plan.line, cell, false);
    return;
  }
  if (plan.model && index == 1) {
    const auto given = given_bytes(word, half_given(word));
    if (gapped_width(c, plan.ruling, text, given) <= plan.line) {
      draw_gapped_word(c, block, plan.ruling, text, given, at, plan.line, cell);
      return;
    }
  }
  draw_set(block, c.style(), plan.ruling, at, plan.line,
           add_writing_lines(c, cell));
}

void add_word(const SheetInput& in, Composer& c, const Plan& plan,
              const AnalyzedWord& word, std::size_t index, ElementId table) {
  const From from(c, word.spelling.span);
  const bool model = plan.model && index == 0;
  const Length height = set_height(plan.ruling) + plan.around.height();
  Block& block =
      c.block(model ? plan.pitch + plan.around.height() : plan.pitch);
  const ElementId row = c.add(Role::table_row, table);
  const ElementId head = add_head_cell(c, row, Scope::row);
  Length top;
  if (model) {
    draw_model_frame(c, block, model_box(c, height), head);
    top = plan.around.above;
  }
  const Length base = top + base_in_set(plan.ruling);
  draw_text(c, block, plan.word, word.reading.word, {plan.left, base}, head);
  const Length box = in.options.length("tick-box");
  for (int i = 0; i < plan.tries; ++i) {
    const ElementId cell = add_data_cell(c, row);
    const Length x = plan.fold + kGap + plan.step * i;
    // Only the first try of a word has something on it.
    const bool given = i == 0 && index < 2;
    if (given) {
      draw_try(c, block, plan, word, index, {x, top}, cell);
    } else {
      draw_set(block, c.style(), plan.ruling, {x, top}, plan.line,
               add_writing_lines(c, cell));
    }
    const bool ticked = model && i == 0;
    const ElementId square = ticked ? c.add(Role::figure, cell, "ticked box")
                                    : add_tick_boxes(c, cell);
    const Rect frame{x + plan.line + kNear, base - box, box, box};
    block.frame(frame, {.width = c.style().box_weight}, square);
    if (ticked) {
      draw_tick(block, c.style(), {frame.x + box / 2, base - box / 2}, box,
                square);
    }
  }
  draw_fold(in, c, plan, block, block.height);
}

void compose(const SheetInput& in, Composer& c) {
  const auto words = words_of(in);
  Plan plan = plan_page(in, c, words);
  if (in.options.flag("fold-line")) {
    const From from(c, in.options.span("fold-line"));
    plan.fold_line = add_fold_line(c);
  }
  const ElementId table = c.add(Role::table);
  add_head(in, c, plan, table);
  const auto head = repeated_head(c.blocks().back());
  for (std::size_t i = 0; i < words.size(); ++i) {
    add_word(in, c, plan, *words[i], i, table);
    Block& block = c.blocks().back();
    block.head = head;
    const bool first = i % static_cast<std::size_t>(plan.rows) == 0;
    block.new_page = i > 0 && first;
    if ((i + 1) % static_cast<std::size_t>(plan.rows) == 0) {
      block.height -= plan.pitch - set_height(plan.ruling);
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
