// The learner sorts pictures by a sound, with no letters in sight: the teacher
// names every picture first. On the page: a mat with a key picture at the head
// of each column, the same crossed out over the column for "not this sound",
// one picture laid already in each; then squares with a number in the corner to
// cut out and glue.

#include <fmt/format.h>

#include <algorithm>

#include "layout/cards.h"
#include "layout/heard.h"
#include "layout/heard_text.h"
#include "layout/picture_frame.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "phonics/explain.h"
#include "sheets/sheet.h"
#include "sheets/sound_sort.h"
#include "sheets/word_parts.h"
#include "text/font.h"

namespace sheaf::picture_sort_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"pictures", Kind::count, "12", "pictures in all", "4", "20"},
    {"square", Kind::length, "40 mm", "side of a square, or less if it must",
     "25 mm", "60 mm"},
    {"spare-cells", Kind::count, "1", "cells more than pictures in a column",
     "0", "4"},
};

constexpr Length kHead = 34_mm;

int longest_column(const SoundSort& sort) {
  int longest = 0;
  for (std::size_t i = 0; i < sort.columns.size(); ++i) {
    const auto here = [&](const std::vector<SoundSort::Item>& items) {
      return static_cast<int>(std::ranges::count(items, static_cast<int>(i),
                                                 &SoundSort::Item::column));
    };
    longest = std::max(longest, here(sort.items) + here(sort.models));
  }
  return longest;
}

// The squares' side, and how many stand beside each other in a column.
struct Grid {
  Length side;
  int across = 1;
  int rows = 1;
};

Grid plan_grid(const SheetInput& in, const Composer& c, const SoundSort& sort) {
  const auto columns = static_cast<std::int64_t>(sort.columns.size());
  const int cells = longest_column(sort) + in.options.count("spare-cells");
  const Length width = c.width() / columns - 2_mm;
  const Length height = c.body().height - kHead - 2_mm;
  for (Length side = in.options.length("square"); side > 12_mm; side -= 1_mm) {
    const auto across = static_cast<int>(width / side);
    if (across == 0) continue;
    const int rows = (cells + across - 1) / across;
    if (side * rows <= height) return {side, across, rows};
  }
  return {12_mm, 1, static_cast<int>(height / 12_mm)};
}

void draw_cross(Block& block, const Rect& box, ElementId figure) {
  const Stroke stroke{.width = 2.5_pt, .round_ends = true};
  block.line({box.x, box.y}, {box.right(), box.bottom()}, stroke, figure);
  block.line({box.right(), box.y}, {box.x, box.bottom()}, stroke, figure);
}

// What a column is for, where its pictures are not heard.
std::string heard_column(const SoundSort& sort, std::size_t column) {
  const std::size_t sounds = sort.columns.size() - 1;
  const bool none = sort.columns[column].sound.empty();
  if (sounds == 1) return none ? "not our sound" : "our sound";
  return none ? "none of our sounds" : fmt::format("sound {}", column + 1);
}

// The pictures at the head of a column.
void draw_head(Composer& c, Block& block, const SoundSort& sort,
               std::size_t column, Length left, Length width, ElementId cell) {
  const Length side = kHead - 6_mm;
  const bool none = sort.columns[column].sound.empty();
  std::vector<const SoundSort::Column*> shown;
  for (std::size_t i = 0; i + 1 < sort.columns.size(); ++i) {
    if (none || i == column) shown.push_back(&sort.columns[i]);
  }
  const auto count = static_cast<std::int64_t>(shown.size());
  const Length step = std::min(side + 2_mm, (width - 4_mm) / count);
  const Length size = std::min(side, step - 2_mm);
  Length x = left + (width - step * count) / 2 + (step - size) / 2;
  for (const SoundSort::Column* key : shown) {
    const Rect box{x, (kHead - size) / 2, size, size};
    const auto number = static_cast<std::size_t>(key - sort.columns.data()) + 1;
    const ElementId figure =
        add_picture(c, cell, key->key_picture,
                    {.word = key->key_word,
                     .number = number,
                     .what = "key picture",
                     .state = none ? "crossed out" : "",
                     .frame = "an empty frame for the key picture"});
    draw_picture(block, c.style(), key->key_picture, box, figure);
    if (none) draw_cross(block, box, figure);
    x += step;
  }
}

// Where the lesson has the word of a picture, if it does.
Span place_of(const SheetInput& in, std::string_view word) {
  const Lesson& lesson = *in.lesson.lesson;
  for (const auto* list : {&lesson.same_sound, &lesson.other_sound}) {
    for (const PlacedWord& listed : *list) {
      if (listed.value == word) return listed.span;
    }
  }
  for (const AnalyzedWord& listed : in.lesson.words) {
    if (listed.reading.word == word) return listed.spelling.span;
  }
  return {};
}

void add_mat(const SheetInput& in, Composer& c, const SoundSort& sort,
             const Grid& grid) {
  const auto columns = static_cast<std::int64_t>(sort.columns.size());
  const Length width = c.width() / columns;
  const Length cells = grid.side * grid.rows;
  Block& block = c.block(kHead + cells + 2_mm);
  const Stroke wall{.width = c.style().box_weight};
  const Stroke thin = thin_stroke(c.style());
  const ElementId table = c.add(Role::table);
  const ElementId head = c.add(Role::table_row, table);
  for (std::size_t i = 0; i < sort.columns.size(); ++i) {
    const Length left = width * static_cast<std::int64_t>(i);
    const ElementId cell = add_head_cell(c, head);
    const bool names_it = c.style().picture_names == PictureNames::left_out;
    block.shade(
        {left, 0_mm, width, kHead}, kHeadGround,
        names_it ? add_heard(c, cell, heard_column(sort, i)) : kDecoration);
    draw_head(c, block, sort, i, left, width, cell);
    block.frame({left, 0_mm, width, kHead + cells + 2_mm}, wall);
  }
  block.line({0_mm, kHead}, {c.width(), kHead}, wall);
  const ElementId row = c.add(Role::table_row, table);
  for (std::size_t i = 0; i < sort.columns.size(); ++i) {
    const ElementId cell = add_data_cell(c, row);
    const Length left = width * static_cast<std::int64_t>(i) +
                        (width - grid.side * grid.across) / 2;
    const auto model = std::ranges::find(sort.models, static_cast<int>(i),
                                         &SoundSort::Item::column);
    const bool has_model = model != sort.models.end();
    const From from(c, has_model ? place_of(in, model->word) : Span());
    const ElementId figure = has_model ? add_picture(c, cell, model->picture,
                                                     {.word = model->word,
                                                      .number = i + 1,
                                                      .what = "laid already"})
                                       : kDecoration;
    const int places = grid.rows * grid.across - (has_model ? 1 : 0);
    const ElementId empty =
        places > 0 ? add_empty_places(c, cell, places, "pictures") : cell;
    for (int k = 0; k < grid.rows * grid.across; ++k) {
      block.frame(
          {left + grid.side * (k % grid.across),
           kHead + 1_mm + grid.side * (k / grid.across), grid.side, grid.side},
          thin, empty);
    }
    if (!has_model) continue;
    const Length pad = grid.side / 8;
    draw_picture(block, c.style(), model->picture,
                 {left + pad, kHead + 1_mm + pad, grid.side - 2 * pad,
                  grid.side - 2 * pad},
                 figure);
  }
}

void add_squares(const SheetInput& in, Composer& c, const SoundSort& sort,
                 const Grid& grid) {
  const auto across = static_cast<int>(c.width() / grid.side);
  TextStyle small = c.style().text(c.style().at_least(c.style().footer_size));
  small.ink = 60;
  // The number stands above the picture's corner.
  const Length base =
      1.5_mm + at_size(*small.font, small.size, small.font->cap_height());
  const ElementId cut = add_cut_lines(c, sort.items.size());
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < sort.items.size(); ++i) {
    const Length x = add_cut_cell(c, i, across, {grid.side, grid.side}, cut).x;
    Block& block = c.blocks().back();
    const From from(c, place_of(in, sort.items[i].word));
    const auto [label, body] = add_list_item(c, list);
    draw_text(c, block, small, fmt::format("{}", i + 1), {x + 2_mm, base},
              label);
    const ElementId figure =
        add_picture(c, body, sort.items[i].picture,
                    {.word = sort.items[i].word, .number = i + 1});
    const Length pad = std::max(grid.side / 8, base + 0.5_mm);
    draw_picture(block, c.style(), sort.items[i].picture,
                 {x + pad, pad, grid.side - 2 * pad, grid.side - 2 * pad},
                 figure);
  }
}

void compose(const SheetInput& in, Composer& c) {
  const SoundSort& sort = sound_sort(in, in.options.count("pictures"));
  const Grid grid = plan_grid(in, c, sort);
  add_mat(in, c, sort, grid);
  add_squares(in, c, sort, grid);
}

std::string missing(const SheetInput& in) {
  return sound_sort(in, in.options.count("pictures")).missing;
}

// A word, its sounds and its column, behind `before`.
void add_answer(const SheetInput& in, Composer& c, const SoundSort& sort,
                const SoundSort::Item& item, std::string_view before) {
  const SoundSort::Column& column =
      sort.columns[static_cast<std::size_t>(item.column)];
  const std::string sounds = sounds_text(item.reading, in.lesson.conventions);
  const std::string where =
      column.sound.empty() ? "not this sound" : "like " + column.key_word;
  add_paragraph(c, c.style().teacher_text(),
                fmt::format("{} {} {} – {}", before, item.word, sounds, where),
                {.heard = fmt::format("{} {}, {} – {}", before, item.word,
                                      heard_text(sounds), where)});
}

void answers(const SheetInput& in, Composer& c) {
  const SoundSort& sort = sound_sort(in, in.options.count("pictures"));
  add_paragraph(c, c.style().teacher_text(),
                "Name every picture before sorting.");
  for (const SoundSort::Item& item : sort.models) {
    add_answer(in, c, sort, item, "laid already:");
  }
  for (std::size_t i = 0; i < sort.items.size(); ++i) {
    add_answer(in, c, sort, sort.items[i], fmt::format("{}.", i + 1));
  }
}

const SheetKind kKind = {
    .name = "picture-sort",
    .title = "Listen and sort",
    .direction = "Say the picture. Listen. Where does it belong?",
    .action = Action::listen,
    .summary = "pictures to sort by a sound, without letters",
    .cut = true,
    .minutes = 10,
    .materials = "scissors, glue",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::picture_sort_sheet
