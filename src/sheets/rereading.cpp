// The learner reads the week's words and phrases again and again, a square to
// tick for each time. On the page: a grid of words in large type, then phrases
// from the lesson's sentences, or whole sentences where they hold no phrase
// that can stand alone.

#include <algorithm>

#include "layout/heard.h"
#include "layout/numbered_steps.h"
#include "layout/strokes.h"
#include "layout/text_block.h"
#include "sheets/phrases.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::rereading_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"readings", Kind::count, "3", "squares to tick for each", "1", "6"},
    {"words", Kind::count, "16", "most words in the grid", "0", "60"},
    {"phrases", Kind::count, "6", "most phrases or sentences below", "0", "40"},
    {"columns", Kind::count, "2", "columns of words, as far as there is room",
     "1", "4"},
    {"cell-height", Kind::length, "14 mm", "least height of a cell", "8 mm",
     "40 mm"},
};

constexpr Length kPad = 4_mm;
constexpr Length kBetween = 6_mm;  // words and phrases

// What the squares of one cell take up, with the blank before them.
struct Ticks {
  int count;
  TextStyle style;
  Length pitch() const { return tick_side(style) + 2.5_mm; }
  Length width() const { return pitch() * count + kPad; }
};

Ticks ticks_of(const SheetInput& in, const Composer& c) {
  return {in.options.count("readings"), c.style().learner_text()};
}

std::vector<const AnalyzedWord*> words_of(const SheetInput& in) {
  return practice_words(in.lesson, in.options.count("words"));
}

struct Text {
  std::string text;
  Span from;  // the sentence
};

// The phrases of all sentences that end in a word of the pattern, each once.
std::vector<Text> phrases_of(const SheetInput& in) {
  std::vector<Text> phrases;
  for (const AnalyzedSentence& sentence : in.lesson.sentences) {
    for (std::size_t i = 0; i < sentence.words.size(); ++i) {
      Phrase phrase = place_phrase(sentence, i);
      if (phrase.empty() || !sentence.words[phrase.last].word.has_pattern() ||
          std::ranges::find(phrases, phrase.text, &Text::text) !=
              phrases.end()) {
        continue;
      }
      phrases.push_back({std::move(phrase.text), sentence.text.span()});
    }
  }
  return phrases;
}

// Phrases, or the sentences where there are too few to make a list.
std::vector<Text> texts_of(const SheetInput& in) {
  std::vector<Text> texts = phrases_of(in);
  if (texts.size() < 3) {
    texts.clear();
    for (const AnalyzedSentence& sentence : in.lesson.sentences) {
      texts.push_back({sentence.text.text(), sentence.text.span()});
    }
  }
  keep_first(texts, in.options.count("phrases"));
  return texts;
}

// Cells that stand in columns and all have one height.
struct Grid {
  TextStyle style;
  int columns = 1;
  Length height;
  struct Cell {
    std::vector<TextLine> lines;
    Span from;  // where the word or the sentence stands
  };
  std::vector<Cell> cells;

  std::int64_t rows() const {
    return (static_cast<std::int64_t>(cells.size()) + columns - 1) / columns;
  }
};

void add_cell(Grid& grid, std::vector<TextLine> lines, const Span& from) {
  const auto count = static_cast<std::int64_t>(lines.size());
  grid.height = std::max(grid.height, grid.style.line_height() * count + 2_mm);
  grid.cells.push_back({std::move(lines), from});
}

Grid word_grid(const SheetInput& in, Composer& c, const Ticks& ticks) {
  Grid grid{.style = c.style().text(c.style().word_size),
            .height = in.options.length("cell-height")};
  const auto words = words_of(in);
  const Length widest = widest_word(c, grid.style, words);
  const Length needed = widest + kPad + ticks.width();
  grid.columns = std::clamp(static_cast<int>(c.width() / needed), 1,
                            in.options.count("columns"));
  grid.style = fitted_style(grid.style, widest,
                            c.width() / grid.columns - kPad - ticks.width());
  for (const AnalyzedWord* word : words) {
    add_cell(grid, break_lines(c, grid.style, word->reading.word, c.width()),
             word->spelling.span);
  }
  return grid;
}

Grid text_grid(const SheetInput& in, Composer& c, const Ticks& ticks) {
  Grid grid{.style = c.style().text(c.style().reading_size),
            .height = in.options.length("cell-height")};
  const auto texts = texts_of(in);
  const Length widest = widest_text(c, grid.style, texts, &Text::text);
  if (2 * (widest + kPad + ticks.width()) <= c.width()) grid.columns = 2;
  const Length room = c.width() / grid.columns - kPad - ticks.width();
  for (const Text& text : texts) {
    add_cell(grid, break_lines(c, grid.style, text.text, room), text.from);
  }
  return grid;
}

void draw_cell(Composer& c, Block& block, const Ticks& ticks, const Grid& grid,
               const Grid::Cell& cell, const Rect& rect, ElementId list) {
  block.frame(rect, thin_stroke(c.style()));
  const From from(c, cell.from);
  const ElementId body = add_list_body(c, list);
  const Length line = grid.style.line_height();
  const auto count = static_cast<std::int64_t>(cell.lines.size());
  Length base =
      rect.y + (rect.height - line * count) / 2 + baseline_in_line(grid.style);
  for (const TextLine& text : cell.lines) {
    draw_line(block, text, {rect.x + kPad, base}, body);
    base += line;
  }
  const ElementId boxes = add_tick_boxes(c, body, ticks.count);
  const Length side = tick_side(ticks.style);
  for (int i = 0; i < ticks.count; ++i) {
    const Length x =
        rect.right() - kPad - side - ticks.pitch() * (ticks.count - 1 - i);
    block.frame({x, rect.y + (rect.height - side) / 2, side, side},
                {.width = c.style().box_weight}, boxes);
  }
}

void add_grid(Composer& c, const Ticks& ticks, const Grid& grid) {
  if (grid.cells.empty()) return;
  const Length width = c.width() / grid.columns;
  const Length space = c.blocks().empty() ? Length() : kBetween;
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < grid.cells.size(); ++i) {
    const auto column = static_cast<int>(i) % grid.columns;
    if (column == 0) c.block(grid.height, i == 0 ? space : Length());
    draw_cell(c, c.blocks().back(), ticks, grid, grid.cells[i],
              {width * column, Length(), width, grid.height}, list);
  }
}

// Cells grow where their rows leave some of each page empty.
double cell_stretch(const Composer& c, const Grid& words, const Grid& texts) {
  const Length free = c.body().height - kBetween - 4_mm;
  Length used = words.height * words.rows() + texts.height * texts.rows();
  if (used > free) {
    const Length tallest = std::max(words.height, texts.height);
    const auto all = static_cast<int>(words.rows() + texts.rows());
    used = tallest * even_rows(all, static_cast<int>(free / tallest));
  }
  const double room = static_cast<double>(free.mils()) /
                      static_cast<double>(std::max(used, 1_mm).mils());
  return std::clamp(room, 1.0, 1.4);
}

void compose(const SheetInput& in, Composer& c) {
  const Ticks ticks = ticks_of(in, c);
  Grid words = word_grid(in, c, ticks);
  Grid texts = text_grid(in, c, ticks);
  const double stretch = cell_stretch(c, words, texts);
  words.height = scaled(words.height, stretch);
  texts.height = scaled(texts.height, stretch);
  add_grid(c, ticks, words);
  add_grid(c, ticks, texts);
  even_pages(c.blocks(), c.body().height);
}

std::string missing(const SheetInput& in) {
  return words_of(in).empty() && texts_of(in).empty()
             ? "there are no words or sentences to read again"
             : "";
}

const SheetKind kKind = {
    .name = "rereading",
    .title = "Read it again",
    .direction = "Read each one aloud. Tick a box each time.",
    .action = Action::read,
    .summary = "the week's words and phrases with squares for each rereading",
    .part = DayPart::read,
    .minutes = 5,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::rereading,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::rereading_sheet
