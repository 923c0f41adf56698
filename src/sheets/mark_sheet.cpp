// For the teacher, beside a pile of dictations: learners down, pattern words
// across, a small square under each grapheme of a word. A grapheme that went
// wrong is struck out; those that show the pattern have a heavy square. Words
// stand by pattern, and a last column adds up each.

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"
#include "layout/fill_in.h"
#include "layout/heard.h"
#include "layout/heard_text.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/dictated.h"
#include "sheets/learner_table.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::mark_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    kLearnersOption,
    {"words", Kind::count, "12", "most words", "1", "60"},
    learner_row_height_option("9 mm", "6 mm", "20 mm"),
    kNameWidthOption,
};

constexpr Length kSquare = 4.2_mm;
constexpr Length kPad = kLearnerPad;
constexpr Length kTotalWidth = 16_mm;

// A column of the table: a word, or the sum of a pattern.
struct Column {
  const AnalyzedWord* word = nullptr;
  std::string head;
  std::string below;            // of a sum: "of 6"
  std::vector<Length> squares;  // middles of the squares, from the left
  Length width;
};

// A word to mark, without the capital of a sentence's first word.
struct Marked {
  const AnalyzedWord* word;
  std::string text;
};

// What is dictated shows what was learned: words first, then those of the
// sentences, each once; a lesson without them has its list.
std::vector<Marked> words_of(const SheetInput& in) {
  std::vector<Marked> words;
  const auto add = [&](const AnalyzedWord& word, bool begins_sentence) {
    std::string text = word.reading.word;
    if (begins_sentence) text = lower_case(text);
    const bool known =
        std::ranges::find(words, text, &Marked::text) != words.end();
    if (word.has_pattern() && !known) words.push_back({&word, text});
  };
  const auto [dictated_words, sentences] = dictated_in_packet(in);
  for (const AnalyzedWord& word : dictated_words) add(word, false);
  for (const AnalyzedSentence& sentence : sentences) {
    for (const AnalyzedSentence::Part& part : sentence.words) {
      add(part.word, part.begin == 0);
    }
  }
  if (words.empty()) {
    for (const AnalyzedWord& word : in.lesson.words) add(word, false);
  }
  keep_first(words, in.options.count("words"));
  return words;
}

TextStyle small_text(const Composer& c) {
  TextStyle style = c.style().teacher_text();
  style.size = scaled(style.size, 0.9);
  return style;
}

Column word_column(Composer& c, const Marked& marked) {
  const AnalyzedWord& word = *marked.word;
  Column column;
  column.word = &word;
  column.head = marked.text;
  const TextStyle small = small_text(c);
  Length x = kPad;
  for (const Unit& unit : word.reading.units) {
    const Length wide = width_of(c.shape(small, unit.grapheme)) + 1.4_mm;
    const Length cell = std::max(wide, kSquare + 1.2_mm);
    column.squares.push_back(x + cell / 2);
    x += cell;
  }
  const Length head =
      width_of(c.shape(c.style().text(c.style().teacher_size, true),
                       word.reading.word)) +
      2 * kPad;
  column.width = std::max(x + kPad, head);
  const Length shift = (column.width - x - kPad) / 2;
  for (Length& square : column.squares) square += shift;
  return column;
}

// How often the words show a pattern, and the column to add that up in.
Column sum_column(const SheetInput& in, Composer& c, std::size_t pattern,
                  const std::vector<Marked>& words) {
  int chances = 0;
  for (const Marked& marked : words) {
    const AnalyzedWord::Hit& hit = marked.word->hits[pattern];
    if (marked.word->pattern() != static_cast<int>(pattern)) continue;
    chances += std::max(1, static_cast<int>(hit.units.size()));
  }
  const auto& graphemes = in.lesson.patterns[pattern].graphemes;
  Column sum;
  sum.head = graphemes.empty() ? "right" : graphemes.front();
  sum.below = fmt::format("of {}", chances);
  const Length head =
      width_of(c.shape(c.style().text(c.style().teacher_size, true), sum.head));
  sum.width = std::max(kTotalWidth, head + 2 * kPad);
  return sum;
}

std::vector<Column> columns_of(const SheetInput& in, Composer& c) {
  std::vector<Column> columns;
  const auto words = words_of(in);
  for (std::size_t p = 0; p < in.lesson.patterns.size(); ++p) {
    const std::size_t before = columns.size();
    for (const Marked& marked : words) {
      if (marked.word->pattern() != static_cast<int>(p)) continue;
      columns.push_back(word_column(c, marked));
    }
    if (columns.size() == before) continue;
    columns.push_back(sum_column(in, c, p, words));
  }
  return columns;
}

using Columns = std::vector<Column>;

// Tables no wider than `room`; a sum stays with the word before it.
std::vector<Columns> divided(const Columns& columns, Length room) {
  std::vector<Columns> tables;
  Length used;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const bool sum_next =
        i + 1 < columns.size() && columns[i + 1].word == nullptr;
    const Length needed =
        columns[i].width + (sum_next ? columns[i + 1].width : Length());
    const bool fits = used + needed <= room || columns[i].word == nullptr;
    if (tables.empty() || !fits) {
      tables.emplace_back();
      used = Length();
    }
    tables.back().push_back(columns[i]);
    used += columns[i].width;
  }
  return tables;
}

// As few tables as fit, about equally wide, each made as wide as the page
// unless its columns would stand too far apart.
std::vector<Columns> tables_of(const SheetInput& in, Composer& c) {
  const Length room = c.width() - in.options.length("name-width");
  const Columns columns = columns_of(in, c);
  std::vector<Columns> tables = divided(columns, room);
  for (Length tried = room - 2_mm; tried > room / 3; tried -= 2_mm) {
    std::vector<Columns> narrower = divided(columns, tried);
    if (narrower.size() > tables.size()) break;
    tables = std::move(narrower);
  }
  for (Columns& table : tables) {
    Length width;
    for (const Column& column : table) width += column.width;
    const auto count = static_cast<std::int64_t>(table.size());
    const Length more = std::clamp((room - width) / count, 0_mm, 24_mm);
    for (Column& column : table) {
      column.width += more;
      for (Length& square : column.squares) square += more / 2;
    }
  }
  return tables;
}

Length table_width(const SheetInput& in, const Columns& columns) {
  Length width = in.options.length("name-width");
  for (const Column& column : columns) width += column.width;
  return width;
}

// The walls of a row: thin between words, heavier around a sum.
void draw_walls(const SheetInput& in, Composer& c, Block& block,
                const Columns& columns) {
  const Stroke thin = thin_stroke(c.style());
  const Stroke wall{.width = c.style().box_weight};
  Length x = in.options.length("name-width");
  block.line({0_mm, 0_mm}, {0_mm, block.height}, wall);
  block.line({x, 0_mm}, {x, block.height}, wall);
  for (const Column& column : columns) {
    x += column.width;
    const bool heavy = column.word == nullptr;
    block.line({x, 0_mm}, {x, block.height}, heavy ? wall : thin);
  }
  block.line({0_mm, block.height}, {x, block.height}, thin);
}

void add_head(const SheetInput& in, Composer& c, const Columns& columns,
              ElementId table) {
  const TextStyle bold = c.style().text(c.style().teacher_size, true);
  const TextStyle small = small_text(c);
  const Length first = 1_mm + baseline_in_line(c.style().teacher_text());
  const Length second = first + small.line_height();
  Block& block = c.block(second + 2.5_mm, 6_mm);
  block.keep_with_next = true;
  block.shade({0_mm, 0_mm, table_width(in, columns), block.height},
              kHeadGround);
  const ElementId row = c.add(Role::table_row, table);
  draw_learner_head(c, block, {kPad, second},
                    in.options.length("name-width") - 2 * kPad, row);
  Length x = in.options.length("name-width");
  for (const Column& column : columns) {
    const From from(
        c, column.word == nullptr ? Span() : column.word->spelling.span);
    const ElementId cell = add_head_cell(c, row);
    const Length middle = x + column.width / 2;
    if (column.word == nullptr) {
      const ElementId sum = add_heard(
          c, cell,
          fmt::format("{}{}, {}", heard_graphemes(column.head),
                      column.head == "right" ? "" : " right", column.below));
      draw_centred(c, block, bold, column.head, {middle, first}, sum);
      draw_centred(c, block, small, column.below, {middle, second}, sum);
    } else {
      draw_centred(c, block, bold, column.head, {middle, first}, cell);
    }
    const ElementId parted =
        column.word == nullptr
            ? kDecoration
            : add_heard(
                  c, cell,
                  "spelled " + heard_graphemes(spelled_out(*column.word)));
    for (std::size_t i = 0; i < column.squares.size(); ++i) {
      draw_centred(c, block, small, column.word->reading.units[i].grapheme,
                   {x + column.squares[i], second}, parted);
    }
    x += column.width;
  }
  draw_walls(in, c, block, columns);
  block.line({0_mm, 0_mm}, {table_width(in, columns), 0_mm},
             {.width = c.style().box_weight});
}

// "3 squares; heavy: sh". Which graphemes they are, the column's head says.
std::string heard_squares(const AnalyzedWord& word) {
  std::string heavy;
  const auto& units = word.reading.units;
  for (std::size_t i = 0; i < units.size(); ++i) {
    if (!word.is_pattern_unit(i)) continue;
    heavy += (heavy.empty() ? "" : ", ") + heard_graphemes(units[i].grapheme);
  }
  std::string text =
      counted(static_cast<int>(units.size()), "square", "squares");
  if (!heavy.empty()) text += "; heavy: " + heavy;
  return text;
}

void add_learner(const SheetInput& in, Composer& c, const Columns& columns,
                 const std::string& code, ElementId table) {
  Block& block = c.block(in.options.length("row-height"));
  const ElementId row = c.add(Role::table_row, table);
  draw_learner(c, block, code, kPad, row);
  Length x = in.options.length("name-width");
  for (const Column& column : columns) {
    const ElementId cell = add_data_cell(c, row);
    const ElementId squares =
        column.word == nullptr
            ? kDecoration
            : c.add(Role::figure, cell, heard_squares(*column.word));
    for (std::size_t i = 0; i < column.squares.size(); ++i) {
      const bool heavy = column.word->is_pattern_unit(i);
      block.frame({x + column.squares[i] - kSquare / 2,
                   (block.height - kSquare) / 2, kSquare, kSquare},
                  {.width = heavy ? c.style().box_weight * 3 / 2
                                  : c.style().guide_weight},
                  squares);
    }
    x += column.width;
  }
  draw_walls(in, c, block, columns);
}

void add_table(const SheetInput& in, Composer& c, const Columns& columns) {
  const ElementId table = c.add(Role::table);
  const std::size_t first = c.blocks().size();
  add_head(in, c, columns, table);
  const auto head = repeated_head(c.blocks().back());
  Length height = head->height;
  for (const std::string& code : learner_rows(in)) {
    add_learner(in, c, columns, code, table);
    c.blocks().back().head = head;
    height += c.blocks().back().height;
  }
  // A table is divided only where it takes most of a page.
  if (height > c.body().height * 2 / 3) return;
  keep_on_one_page(std::span(c.blocks()).subspan(first));
}

void compose(const SheetInput& in, Composer& c) {
  const TextStyle text = c.style().teacher_text();
  add_paragraph(c, text,
                "Strike out the square of a grapheme that went wrong. Heavy "
                "squares show the pattern: write how many of them are right in "
                "the last column.");
  add_fill_in_lines(c, {"Dictated on", "By"}, 3_mm);
  for (const Columns& columns : tables_of(in, c)) add_table(in, c, columns);
  add_caution_below(c, 5_mm);
  even_pages(c.blocks(), c.body().height);
}

std::string missing(const SheetInput& in) {
  return words_of(in).empty() ? "no word to mark has the pattern" : "";
}

const SheetKind kKind = {
    .name = "mark-sheet",
    .title = "Mark sheet",
    .summary = "learners down and words across, a square to each grapheme",
    .for_teacher = true,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::mark_sheet
