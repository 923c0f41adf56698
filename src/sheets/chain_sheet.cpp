// The learner changes one sound at a time: ship, shop, chop, chip. On the page:
// the first word, printed; for each change a number and room for the new word,
// sound boxes or a line, and, where it is not the teacher who says it, the
// change in words: "Change the last sound: p to n".

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "layout/begun_line.h"
#include "layout/heard.h"
#include "layout/heard_text.h"
#include "layout/numbered_steps.h"
#include "layout/ruled_lines.h"
#include "layout/sound_boxes.h"
#include "layout/text_block.h"
#include "sheets/chain_words.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::chain_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {.name = "told",
     .kind = Kind::choice,
     .fallback = "ear",
     .help = "who tells the change: the teacher's voice, or words on the page",
     .choices = "ear clue"},
    {.name = "write",
     .kind = Kind::choice,
     .fallback = "boxes",
     .help = "what each word is written in",
     .choices = "boxes line"},
    {"length", Kind::count, "7", "words of the chain, or fewer", "6", "8"},
    {"made-up", Kind::flag, "no", "words that do not exist may come in too"},
    line_height_option("12 mm"),
    {"least-box", Kind::length, "15 mm", "least width of a box", "10 mm",
     "40 mm"},
    {"slots", Kind::flag, "yes", "a dashed slot for a silent final e"},
};

constexpr Length kNumberWidth = 10_mm;
constexpr Length kBeside = 6_mm;      // boxes and what stands beside them
constexpr Length kLeastClue = 56_mm;  // else it stands above
constexpr Length kLeastLine = 36_mm;
constexpr Length kMostLine = 120_mm;
constexpr Length kAboveRow = 5_mm;

bool is_by_ear(const SheetInput& in) {
  return in.options.choice("told") == "ear";
}
bool has_boxes(const SheetInput& in) {
  return in.options.choice("write") == "boxes";
}

// What the rows share.
struct Plan {
  Ruling ruling;
  BoxMeasures measures;
  BoxRowOptions boxes;
  Length left;          // of what is written in
  Length width;         // of the same, the widest of all words
  Length beside;        // the left edge of clue or line beside it
  Length beside_width;  // nothing where there is no room
  bool clue_above = false;
};

Plan plan_rows(const SheetInput& in, Composer& c,
               const std::vector<std::vector<SoundBox>>& words) {
  Plan plan;
  plan.ruling = ruling_of(in, c.style());
  plan.left = kNumberWidth;
  if (!has_boxes(in)) {
    // The words stand one below the other, so that eyes find what changed.
    const bool clue = !is_by_ear(in);
    plan.width = clue ? (c.width() - kNumberWidth - kBeside) / 2
                      : std::min(kMostLine, c.width() - kNumberWidth);
    if (clue) {
      plan.beside = kNumberWidth;
      plan.beside_width = plan.width;
      plan.left = kNumberWidth + plan.width + kBeside;
    }
    return plan;
  }
  plan.boxes.slots = in.options.flag("slots");
  plan.boxes.text = c.style().text(c.style().word_size);
  plan.boxes.fill = BoxFill::all;
  const Length x_height = plan.ruling.x_height;
  plan.measures =
      measure_boxes(words, x_height, in.options.length("least-box"));
  const Length wide = printed_box_width(c, words, x_height, plan.boxes);
  if (wide > plan.measures.width) {
    plan.boxes.print = static_cast<double>(plan.measures.width.mils()) /
                       static_cast<double>(wide.mils());
  }
  for (const auto& word : words) {
    plan.width = std::max(plan.width, row_width(word, plan.measures));
  }
  plan.beside = plan.left + plan.width + kBeside;
  const Length room = c.width() - plan.beside;
  if (is_by_ear(in)) {
    if (room >= kLeastLine) plan.beside_width = room;
  } else if (room >= kLeastClue) {
    plan.beside_width = room;
  } else {
    plan.clue_above = true;
    plan.beside = plan.left;
    plan.beside_width = c.width() - plan.left;
  }
  return plan;
}

// Lines of a clue, one below the other from `top` on.
void draw_clue(Composer& c, Block& block, const std::vector<TextLine>& lines,
               Length left, Length top, ElementId element) {
  const TextStyle style = c.style().learner_text();
  Length base = top + baseline_in_line(style);
  for (const TextLine& line : lines) {
    draw_line(block, line, {left, base}, element);
    base += style.line_height();
  }
}

std::vector<TextLine> clue_lines(const SheetInput& in, Composer& c,
                                 const Plan& plan, const ChainWord& link,
                                 bool first) {
  if (first || is_by_ear(in)) return {};
  return break_lines(c, c.style().learner_text(), step_in_letters(link.step),
                     plan.beside_width);
}

void draw_word(const SheetInput& in, Composer& c, Block& block,
               const Plan& plan, const ChainWord& link,
               const std::vector<SoundBox>& boxes, bool first, Length top,
               ElementId body) {
  const std::string& word = link.word.reading.word;
  if (!has_boxes(in)) {
    if (first) {
      draw_begun_line(c, block, plan.ruling, word, {plan.left, top}, plan.width,
                      body, false);
    } else {
      draw_set(block, c.style(), plan.ruling, {plan.left, top}, plan.width,
               add_writing_lines(c, body));
    }
    return;
  }
  BoxRowOptions options = plan.boxes;
  options.fill = first ? BoxFill::all : BoxFill::empty;
  const ElementId figure =
      c.add(Role::figure, body, heard_boxes(boxes, 1, options));
  draw_box_row(c, block, boxes, plan.measures, options, {plan.left, top},
               figure);
  if (!is_by_ear(in) || plan.beside_width == Length()) return;
  // The line's base is that of the boxes.
  const Length base = top + row_height(plan.measures) - plan.measures.height() +
                      plan.measures.base();
  const Point at{plan.beside, base - base_in_set(plan.ruling)};
  if (first) {
    draw_begun_line(c, block, plan.ruling, word, at, plan.beside_width, body,
                    false);
  } else {
    draw_set(block, c.style(), plan.ruling, at, plan.beside_width,
             add_writing_lines(c, body));
  }
}

// Where the number's baseline lies, from the top of what is written in.
Length number_base(const SheetInput& in, const Plan& plan) {
  if (!has_boxes(in)) return base_in_set(plan.ruling);
  return row_height(plan.measures) - plan.measures.height() +
         plan.measures.base();
}

void add_row(const SheetInput& in, Composer& c, const Plan& plan,
             const ChainWord& link, std::size_t index, ElementId list) {
  const bool first = index == 0;
  const std::vector<SoundBox> boxes = boxes_of(link.word);
  const auto clue = clue_lines(in, c, plan, link, first);
  const Length clue_height = c.style().learner_text().line_height() *
                             static_cast<std::int64_t>(clue.size());
  const Length writing =
      has_boxes(in) ? row_height(plan.measures) : set_height(plan.ruling);
  const Length top = plan.clue_above ? clue_height : Length();
  Block& block = c.block(std::max(top + writing, clue_height),
                         first ? Length() : kAboveRow);
  const From from(c, link.word.spelling.span);
  const auto [label, body] = add_list_item(c, list);
  draw_text(c, block, c.style().learner_text(), fmt::format("{}", index + 1),
            {Length(), top + number_base(in, plan)}, label);
  if (!clue.empty()) {
    const std::string text = step_in_letters(link.step);
    const ElementId said = add_heard_as(c, body, text, heard_text(text));
    const Length beside = plan.clue_above ? Length()
                          : has_boxes(in)
                              // Beside the boxes, not their dots.
                              ? writing - plan.measures.height() +
                                    (plan.measures.height() - clue_height) / 2
                              : std::max(Length(), (writing - clue_height) / 2);
    draw_clue(c, block, clue, plan.beside, std::max(Length(), beside), said);
  }
  draw_word(in, c, block, plan, link, boxes, first, top, body);
}

void compose(const SheetInput& in, Composer& c) {
  const auto& chain = chain_words(in);
  std::vector<std::vector<SoundBox>> words;
  for (const ChainWord& link : chain) words.push_back(boxes_of(link.word));
  const Plan plan = plan_rows(in, c, words);
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < chain.size(); ++i) {
    add_row(in, c, plan, chain[i], i, list);
  }
  stretch_blanks(c.blocks(), c.body().height - 4_mm, 0.3, 4);
  even_pages(c.blocks(), c.body().height);
}

std::string missing(const SheetInput& in) {
  return chain_words(in).empty()
             ? "too few words that can be read make a chain that changes one "
               "sound at a time"
             : "";
}

Direction other_direction(const SheetInput& in) {
  if (!is_by_ear(in)) {
    return {"Read the change. Say the new word. Write it.", Action::read};
  }
  if (!in.plain_voice) return {};
  return {"Listen to the change. Say the new word, then write it."};
}

void answers(const SheetInput& in, Composer& c) {
  const auto& chain = chain_words(in);
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  std::vector<std::vector<TextPiece>> texts;
  for (std::size_t i = 0; i < chain.size(); ++i) {
    auto& pieces = texts.emplace_back(
        marked_word(in.lesson, chain[i].word, plain, strong));
    pieces.push_back(spelled_piece(chain[i].word, plain, " (", ")"));
    std::string after = i == 0 ? ", printed" : "";
    if (i > 0) {
      after = fmt::format(": {}", step_in_letters(chain[i].step));
    }
    if (chain[i].made_up) after += "; made up";
    pieces.push_back({after, plain});
  }
  add_numbered_texts(c, plain, texts);
}

const SheetKind kKind = {
    .name = "chain",
    .title = "Change one sound",
    .direction = "Listen to the change. Say the new word. Write it.",
    .action = Action::listen,
    .other_direction = other_direction,
    .summary = "words in a chain, each one sound from the word before",
    .part = DayPart::spell,
    .first_day = 3,
    .minutes = 5,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = chain_script,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::chain_sheet
