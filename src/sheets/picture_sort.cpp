// The learner sorts pictures by a sound, with no letters in sight: the teacher
// names every picture first. On the leaf to cut: a framed card for the head of
// each column with its key picture, and the same crossed out for "not this
// sound"; squares with a number in the corner. On a page, where the layout asks
// for it: a mat with these heads and one picture laid already in each column.

#include <fmt/format.h>

#include <algorithm>

#include "layout/cut_leaf.h"
#include "layout/heard.h"
#include "layout/heard_text.h"
#include "layout/picture_frame.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "phonics/explain.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
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
    {"mat", Kind::flag, "no", "a page of columns to lay or glue them on"},
    {"spare-cells", Kind::count, "1",
     "on the mat, cells more than pictures in a column", "0", "4"},
};

constexpr Length kHead = 34_mm;
constexpr Length kAbovePicture = 5_mm;
constexpr Length kBelowPicture = 3_mm;

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

// The key pictures of a column in a square grid, crossed out over the one for
// "not this sound".
void draw_keys(Composer& c, Block& block, const SoundSort& sort,
               std::size_t column, const Rect& room, ElementId cell) {
  const bool none = sort.columns[column].sound.empty();
  std::vector<const SoundSort::Column*> shown;
  for (std::size_t i = 0; i + 1 < sort.columns.size(); ++i) {
    if (none || i == column) shown.push_back(&sort.columns[i]);
  }
  const auto count = static_cast<std::int64_t>(shown.size());
  // Side by side where the room is wide, else two and two.
  const bool is_wide = room.width >= room.height * 3 / 2;
  const std::int64_t across = is_wide || count == 1 ? count : 2;
  const std::int64_t down = (count + across - 1) / across;
  const Length step = std::min(room.width / across, room.height / down);
  const Length size = count == 1 ? step : step - 2_mm;
  for (std::int64_t i = 0; i < count; ++i) {
    const SoundSort::Column* key = shown[static_cast<std::size_t>(i)];
    const Rect box{room.x + (room.width - step * across) / 2 +
                       step * (i % across) + (step - size) / 2,
                   room.y + (room.height - step * down) / 2 +
                       step * (i / across) + (step - size) / 2,
                   size, size};
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
    draw_keys(c, block, sort, i,
              {left + 2_mm, 3_mm, width - 4_mm, kHead - 6_mm}, cell);
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

// With a mat, the examples are printed in its columns. Without one they are the
// first of the cards, and the teacher lays them.
std::vector<SoundSort::Item> items_to_cut(const SheetInput& in,
                                          const SoundSort& sort) {
  std::vector<SoundSort::Item> items;
  if (!in.options.flag("mat")) items = sort.models;
  items.insert(items.end(), sort.items.begin(), sort.items.end());
  return items;
}

CutSet cards(const SheetInput& in, Composer& c) {
  const SoundSort& sort = sound_sort(in, in.options.count("pictures"));
  CutSet set;
  set.best = in.options.length("square");
  set.least = std::max(25_mm, scaled(set.best, 0.7));
  set.numbered = true;
  for (std::size_t i = 0; i < sort.columns.size(); ++i) {
    Card card;
    card.front = [&c, &sort, i](Block& block, const Rect& place,
                                ElementId element) {
      const Length pad = place.height / (sort.columns.size() > 2 ? 11 : 8);
      // Where the pictures are not heard, nothing else would tell.
      if (c.style().picture_names == PictureNames::left_out) {
        block.shade(place, kWhite,
                    add_heard(c, element, heard_column(sort, i)));
      }
      draw_keys(c, block, sort, i,
                {place.x + pad, place.y + pad, place.width - 2 * pad,
                 place.height - 2 * pad},
                element);
    };
    set.heads.push_back(std::move(card));
  }
  for (const SoundSort::Item& item : items_to_cut(in, sort)) {
    Card card;
    card.from = place_of(in, item.word);
    card.front = [&c, item, number = set.cards.size() + 1](
                     Block& block, const Rect& place, ElementId element) {
      // Below the number.
      const Length above =
          std::max(kAbovePicture, card_number_base(c.style()) + 0.8_mm);
      const Length side = place.height - above - kBelowPicture;
      draw_picture(
          block, c.style(), item.picture,
          {place.x + (place.width - side) / 2, place.y + above, side, side},
          add_picture(c, element, item.picture,
                      {.word = item.word, .number = number}));
    };
    set.cards.push_back(std::move(card));
  }
  return set;
}

bool has_cards(const SheetInput&) { return true; }

void compose(const SheetInput& in, Composer& c) {
  if (!in.options.flag("mat")) return;
  const SoundSort& sort = sound_sort(in, in.options.count("pictures"));
  add_mat(in, c, sort, plan_grid(in, c, sort));
}

Direction other_direction(const SheetInput& in) {
  if (in.options.flag("mat")) return {};
  return {
      .text = "Lay out the framed cards. Say each picture. Where does it fit?",
      .action = Action::listen};
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
  if (in.options.flag("mat")) {
    for (const SoundSort::Item& item : sort.models) {
      add_answer(in, c, sort, item, "laid already:");
    }
  } else if (!sort.models.empty()) {
    add_paragraph(c, c.style().teacher_text(),
                  sort.models.size() == 1
                      ? "Lay the first one yourself, as an example."
                      : fmt::format("Lay the first {} yourself, as examples.",
                                    sort.models.size()));
  }
  const auto items = items_to_cut(in, sort);
  for (std::size_t i = 0; i < items.size(); ++i) {
    add_answer(in, c, sort, items[i], fmt::format("{}.", i + 1));
  }
}

const SheetKind kKind = {
    .name = "picture-sort",
    .title = "Listen and sort",
    .direction = "Say the picture. Listen. Where does it belong?",
    .action = Action::listen,
    .other_direction = other_direction,
    .summary = "pictures to sort by a sound, without letters",
    .minutes = 9,
    .materials = "scissors",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::picture_sort,
    .has_cards = has_cards,
    .cards = cards,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::picture_sort_sheet
