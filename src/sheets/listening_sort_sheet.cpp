// The learner sorts words by a sound that is only heard, with no letters and no
// pictures for little children: the teacher says a number and a word, the
// learner writes the number in a column. On the page: a column for each sound
// and one for words without it, with the first number of each printed already,
// and an empty cell for every other. For a board the words may be pictures with
// their numbers beside the columns, so that nothing is cut.

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "layout/heard.h"
#include "layout/heard_text.h"
#include "layout/picture_frame.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "phonics/explain.h"
#include "sheets/listening_sort.h"
#include "sheets/word_parts.h"

namespace sheaf::listening_sort_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"words", Kind::count, "12", "words in all", "4", "40"},
    {"cell-height", Kind::length, "17 mm", "height of a cell, or less", "10 mm",
     "30 mm"},
    {"spare-cells", Kind::count, "1", "cells more than words in a column", "0",
     "4"},
    {"pictures", Kind::flag, "no",
     "pictures with numbers to look at; else the words are only said"},
};

constexpr Length kBesidePictures = 6_mm;
constexpr int kMostAcross = 4;

// The heads of the columns, in two lines where they are narrow.
struct Heads {
  TextStyle text;
  std::vector<std::vector<TextLine>> lines;
  Length height;
};

Heads plan_heads(Composer& c, const ListeningSort& content, Length room) {
  const std::size_t columns = content.sort->columns.size();
  Heads heads;
  heads.text = c.style().text(c.style().text_size, true);
  heads.text.leading = 1.2;
  std::size_t most = 1;
  for (std::size_t i = 0; i < columns; ++i) {
    heads.lines.push_back(
        break_lines(c, heads.text, content.head(i),
                    room / static_cast<std::int64_t>(columns) - 3_mm));
    most = std::max(most, heads.lines.back().size());
  }
  heads.height =
      heads.text.line_height() * static_cast<std::int64_t>(most) + 5_mm;
  return heads;
}

void draw_head(Block& block, const Heads& heads, std::size_t column,
               const Rect& at, ElementId cell) {
  block.shade(at, kHeadGround);
  const auto& lines = heads.lines[column];
  Length y = at.y +
             (at.height - heads.text.line_height() *
                              static_cast<std::int64_t>(lines.size())) /
                 2 +
             baseline_in_line(heads.text);
  for (const TextLine& line : lines) {
    draw_line(block, line, {at.x + (at.width - line.width) / 2, y}, cell);
    y += heads.text.line_height();
  }
}

int longest_column(const ListeningSort& content) {
  int longest = 0;
  for (std::size_t i = 0; i < content.sort->columns.size(); ++i) {
    const auto here =
        std::ranges::count_if(content.items, [&](const SoundSort::Item* item) {
          return item->column == static_cast<int>(i);
        });
    longest = std::max(longest, static_cast<int>(here));
  }
  return longest;
}

// The cells of a column: so many beside each other that none is too low.
struct Cells {
  int across = 1;
  int rows = 1;
  Length height;
};

Cells plan_cells(const SheetInput& in, const Composer& c,
                 const ListeningSort& content, Length room) {
  const Length least = std::max(10_mm, scaled(c.style().word_size, 1.2));
  const int cells = longest_column(content) + in.options.count("spare-cells");
  Cells plan;
  for (plan.across = 1;; ++plan.across) {
    plan.rows = (cells + plan.across - 1) / plan.across;
    // A few cells are a little taller, to fill the page.
    plan.height = std::min(room / plan.rows,
                           scaled(in.options.length("cell-height"), 1.3));
    if (plan.height >= least || plan.across == kMostAcross) return plan;
  }
}

// The columns, in `room` of the last block.
void draw_columns(const SheetInput& in, Composer& c,
                  const ListeningSort& content, const Rect& room) {
  Block& block = c.blocks().back();
  const auto columns = static_cast<std::int64_t>(content.sort->columns.size());
  const Length width = room.width / columns;
  const Heads heads = plan_heads(c, content, room.width);
  const Length head = heads.height;
  const Cells cells = plan_cells(in, c, content, room.height - head);
  const Length height = head + cells.height * cells.rows;
  const Length cell = width / cells.across;
  const TextStyle number = c.style().text(
      std::min(c.style().word_size, scaled(cells.height, 0.75)), true);
  const Stroke wall{.width = c.style().box_weight};
  const Stroke thin = thin_stroke(c.style());
  const ElementId table = c.add(Role::table);
  const ElementId head_row = c.add(Role::table_row, table);
  for (std::int64_t i = 0; i < columns; ++i) {
    draw_head(block, heads, static_cast<std::size_t>(i),
              {room.x + width * i, room.y, width, head},
              add_head_cell(c, head_row));
  }
  const ElementId row = c.add(Role::table_row, table);
  for (std::int64_t i = 0; i < columns; ++i) {
    const ElementId data = add_data_cell(c, row);
    const Length left = room.x + width * i;
    int places = cells.rows * cells.across;
    for (std::size_t k = 0; k < content.done; ++k) {
      if (content.items[k]->column != static_cast<int>(i)) continue;
      --places;
      const Rect first{left, room.y + head, cell, cells.height};
      draw_in_middle(
          c, block, c.style().text(c.style().word_size, true),
          fmt::format("{}", k + 1), first,
          add_heard(c, data, fmt::format("{}, done already,", k + 1)));
    }
    const ElementId empty =
        places > 0 ? add_empty_places(c, data, places, "numbers") : data;
    for (int k = 0; k < cells.rows * cells.across; ++k) {
      block.frame({left + cell * (k % cells.across),
                   room.y + head + cells.height * (k / cells.across), cell,
                   cells.height},
                  thin, empty);
    }
  }
  for (std::int64_t i = 0; i < columns; ++i) {
    block.frame({room.x + width * i, room.y, width, height}, wall);
  }
  block.line({room.x, room.y + head}, {room.x + room.width, room.y + head},
             wall);
}

// Squares as large as fit, and how many stand beside each other.
struct Squares {
  Length side;
  int across = 1;
};

Squares plan_squares(std::size_t count, Size room) {
  Squares best;
  for (int across = 1; across <= static_cast<int>(count); ++across) {
    const int rows = (static_cast<int>(count) + across - 1) / across;
    const Length side = std::min(room.width / across, room.height / rows);
    if (side > best.side) best = {side, across};
  }
  return best;
}

// The pictures with their numbers, in the upper left corner of the last block.
void draw_numbered_pictures(Composer& c, const ListeningSort& content,
                            const Squares& squares, Length height) {
  Block& block = c.blocks().back();
  const auto rows =
      (static_cast<std::int64_t>(content.items.size()) + squares.across - 1) /
      squares.across;
  const Length pitch = std::min(height / rows, scaled(squares.side, 1.25));
  const TextStyle style = c.style().text(c.style().text_size, true);
  const Length aside =
      1.5_mm + width_of(c.shape(style, content.items.size() > 9 ? "00" : "0"));
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < content.items.size(); ++i) {
    const auto place = static_cast<int>(i);
    const SoundSort::Item& item = *content.items[i];
    const Rect at{squares.side * (place % squares.across),
                  pitch * (place / squares.across), squares.side, squares.side};
    const auto [label, body] = add_list_item(c, list);
    draw_text(c, block, style, fmt::format("{}", i + 1),
              {at.x, at.y + baseline_in_line(style)}, label);
    const ElementId figure = add_picture(c, body, item.picture,
                                         {.word = item.word, .number = i + 1});
    const Length side = squares.side - aside - 3_mm;
    draw_picture(block, c.style(), item.picture,
                 {at.x + aside, at.y + 2_mm, side, side}, figure);
  }
}

void compose(const SheetInput& in, Composer& c) {
  const ListeningSort content = listening_sort(in);
  const Size page = c.body();
  if (!in.options.flag("pictures")) {
    const Length head = plan_heads(c, content, page.width).height;
    const Cells cells = plan_cells(in, c, content, page.height - head - 4_mm);
    c.block(head + cells.height * cells.rows);
    draw_columns(in, c, content,
                 {0_mm, 0_mm, page.width, c.blocks().back().height});
    return;
  }
  c.block(page.height);
  // Beside each other on a slide, else one above the other.
  if (page.width > page.height) {
    const Squares squares =
        plan_squares(content.items.size(), {page.width * 31 / 50, page.height});
    draw_numbered_pictures(c, content, squares, page.height);
    const Length left = squares.side * squares.across + kBesidePictures;
    draw_columns(in, c, content, {left, 0_mm, page.width - left, page.height});
    return;
  }
  const Squares squares =
      plan_squares(content.items.size(), {page.width, page.height / 2});
  draw_numbered_pictures(c, content, squares, page.height / 2);
  const int across = squares.across;
  const int rows =
      (static_cast<int>(content.items.size()) + across - 1) / across;
  const Length top =
      std::min(page.height / 2, scaled(squares.side, 1.25) * rows) +
      kBesidePictures;
  draw_columns(in, c, content, {0_mm, top, page.width, page.height - top});
}

std::string missing(const SheetInput& in) {
  return listening_sort(in).sort->missing;
}

Direction other_direction(const SheetInput& in) {
  if (in.options.flag("pictures")) {
    return {"Say each picture. Listen. Which column does its number go to?",
            Action::listen};
  }
  if (!in.plain_voice) return {};
  return {"Listen to each word. Write its number in the column for its sound."};
}

void answers(const SheetInput& in, Composer& c) {
  const ListeningSort content = listening_sort(in);
  for (std::size_t i = 0; i < content.items.size(); ++i) {
    const SoundSort::Item& item = *content.items[i];
    const std::string sounds = sounds_text(item.reading, in.lesson.conventions);
    const std::string where =
        content.head(static_cast<std::size_t>(item.column)) +
        (i < content.done ? ", done already" : "");
    add_paragraph(
        c, c.style().teacher_text(),
        fmt::format("{}. {} {} – {}", i + 1, item.word, sounds, where),
        {.heard = fmt::format("{}. {}, {} – {}", i + 1, item.word,
                              heard_text(sounds), where)});
  }
}

const SheetKind kKind = {
    .name = "listening-sort",
    .title = "Sort by ear",
    .direction = "Listen. Say the word. Write its number where it belongs.",
    .action = Action::listen,
    .other_direction = other_direction,
    .summary =
        "words that the teacher says, sorted by a sound by their numbers",
    .minutes = 6,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = listening_sort_script,
    .script_extra = add_listening_sort_words,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::listening_sort_sheet
