// The learner sorts the words of the week into columns by how they are spelled,
// with one more column for words that fit none; where the lesson has one
// pattern only, by where in the word it stands; words with -ed by what the
// ending says. On the leaf to cut: word cards of one size, and a framed card
// for the head of each column; they are laid on the desk, mixed and sorted
// again. On a page, where the layout asks for it: a mat with heads and cells;
// or the words in a box above the mat, to be written, of which the first is in
// its column already, "Like this".

#include <fmt/format.h>

#include <algorithm>

#include "base/shuffle.h"
#include "layout/cards.h"
#include "layout/heard.h"
#include "layout/heard_text.h"
#include "layout/model_frame.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "sheets/common_options.h"
#include "sheets/ed_sort.h"
#include "sheets/pattern_card.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_bank.h"
#include "sheets/word_parts.h"

namespace sheaf::word_sort_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"words", Kind::count, "16", "most words to sort", "2", "60"},
    {"cell-height", Kind::length, "20 mm",
     "height of a cell, and about that of a card", "12 mm", "40 mm"},
    {"spare-cells", Kind::count, "2", "cells more than words in the longest",
     "0", "6"},
    {"cards", Kind::flag, "yes",
     "cards to cut; else the words in a box, to be written"},
    {"mat", Kind::flag, "no", "a page of columns to lay or glue the cards on"},
    {.name = "model",
     .kind = Kind::flag,
     .fallback = "yes",
     .help = "where words are written, the first one done: Like this"},
};

constexpr Length kHead = 18_mm;
constexpr Length kBelowBank = 5_mm;

struct Category {
  std::string head;
  std::string said;
  int place = -1;             // 0 first, 1 middle, 2 last where sorted by place
  std::string key_word = {};  // below a head that another column shares
  std::vector<const AnalyzedWord*> words;
  bool by_sound = false;  // the head is a sound, not a grapheme
};

// 0 first, 1 in the middle, 2 last; -1 where it stands in several places.
int place_of(const AnalyzedWord& word) {
  int place = -1;
  const auto units = static_cast<int>(word.reading.units.size());
  for (int i = 0; i < units; ++i) {
    if (!word.is_pattern_unit(static_cast<std::size_t>(i))) continue;
    if (place >= 0) return -1;
    place = i == 0 ? 0 : i + 1 == units ? 2 : 1;
  }
  return place;
}

// The pattern of a word that has exactly one, -1 for none, -2 for several.
int only_pattern(const AnalyzedWord& word) {
  int found = -1;
  for (std::size_t i = 0; i < word.hits.size(); ++i) {
    if (!word.hits[i].has) continue;
    if (found >= 0) return -2;
    found = static_cast<int>(i);
  }
  return found;
}

std::vector<Category> by_place(const SheetInput& in) {
  std::vector<Category> all = {
      {.head = "first", .said = "at the beginning", .place = 0},
      {.head = "middle", .said = "in the middle", .place = 1},
      {.head = "last", .said = "at the end", .place = 2}};
  for (const AnalyzedWord& word : in.lesson.words) {
    const int place = place_of(word);
    if (place >= 0) all[static_cast<std::size_t>(place)].words.push_back(&word);
  }
  std::erase_if(all, [](const Category& c) { return c.words.empty(); });
  return all;
}

// Whether another pattern of the lesson has a spelling of this one.
bool shares_spelling(const SheetInput& in, const LessonPattern& pattern) {
  return std::ranges::any_of(in.lesson.patterns, [&](const LessonPattern& p) {
    return &p != &pattern &&
           std::ranges::find_first_of(p.graphemes, pattern.graphemes) !=
               p.graphemes.end();
  });
}

// Columns of one spelling (cow, snow) are told apart by their key words.
Category category_of(const SheetInput& in, std::size_t index) {
  const LessonPattern& pattern = in.lesson.patterns[index];
  Category category;
  category.head = column_head(in.lesson, index);
  category.said = category.head;
  const int key = in.lesson.key_words[index];
  if (key >= 0 && shares_spelling(in, pattern)) {
    category.key_word =
        in.lesson.words[static_cast<std::size_t>(key)].reading.word;
    category.said += " as in " + category.key_word;
  }
  return category;
}

std::vector<Category> by_pattern(const SheetInput& in) {
  std::vector<Category> all;
  for (std::size_t i = 0; i < in.lesson.patterns.size(); ++i) {
    all.push_back(category_of(in, i));
  }
  Category none{.head = "left over", .said = "left over"};
  for (const AnalyzedWord& word : in.lesson.words) {
    const int pattern = only_pattern(word);
    if (pattern >= 0) {
      all[static_cast<std::size_t>(pattern)].words.push_back(&word);
    } else if (pattern == -1) {
      none.words.push_back(&word);
    }
  }
  if (!none.words.empty()) all.push_back(std::move(none));
  std::erase_if(all, [](const Category& c) { return c.words.empty(); });
  return all;
}

std::vector<Category> by_ed(const SheetInput& in) {
  std::vector<Category> all;
  for (EdColumn& column : ed_columns(in.lesson)) {
    all.push_back({.head = column.sound,
                   .said = fmt::format("{}, {}", column.sound, column.reason),
                   .key_word = column.key_word,
                   .words = std::move(column.words),
                   .by_sound = true});
  }
  return all;
}

std::vector<Category> categories(const SheetInput& in) {
  std::vector<Category> all = by_ed(in);
  if (all.size() < 2) {
    all = in.lesson.patterns.size() > 1 ? by_pattern(in) : by_place(in);
  }
  // Too many words for one sitting: the longest columns give some up.
  const int most = in.options.count("words");
  const auto total = [&] {
    int sum = 0;
    for (const Category& c : all) sum += static_cast<int>(c.words.size());
    return sum;
  };
  while (total() > most && !all.empty()) {
    std::ranges::max_element(all, {}, [](const Category& c) {
      return c.words.size();
    })->words.pop_back();
  }
  return all;
}

std::string missing(const SheetInput& in) {
  const auto all = categories(in);
  // By place, a word that stands alone in its column shows nothing.
  const bool lopsided =
      in.lesson.patterns.size() == 1 && all.size() == 2 &&
      std::ranges::any_of(all, [](const Category& category) {
        return category.place >= 0 && category.words.size() < 2;
      });
  if (lopsided)
    return "nearly all its words have the pattern in the same place";
  if (all.size() >= 2) return "";
  return in.lesson.patterns.size() > 1
             ? "its words all fall into one column"
             : "all its words have the pattern in the same place";
}

// Three squares for a word, the one where the pattern stands filled.
// The word below says the same.
void draw_place(Block& block, int place, Point centre, Length weight,
                ElementId element) {
  const Length side = 4_mm;
  const Length left = centre.x - side * 3 / 2;
  for (int i = 0; i < 3; ++i) {
    const Rect rect{left + side * i, centre.y - side / 2, side, side};
    if (i == place) block.shade(rect, kBlack, element);
    block.frame(rect, {.width = weight}, element);
  }
}

std::string heard_head(const Category& category) {
  const std::string grapheme = category.by_sound
                                   ? heard_text(category.head)
                                   : heard_grapheme(category.head);
  return category.key_word.empty() ? grapheme : grapheme + ", as in";
}

TextStyle head_style(const Composer& c, const Category& category) {
  if (category.place >= 0 || category.head == "left over") {
    return c.style().learner_text();
  }
  TextStyle big = c.style().text(scaled(c.style().word_size, 0.9), true);
  // A key word stands beside it or below.
  if (!category.key_word.empty()) big.size = std::min(big.size, 26_pt);
  return big;
}

// At the head of a column of the mat.
void draw_head(Composer& c, Block& block, const Category& category,
               Length middle, ElementId element) {
  TextStyle small = c.style().learner_text();
  small.size = std::min(small.size, 20_pt);
  if (category.place >= 0) {
    draw_place(block, category.place, {middle, 4.5_mm}, c.style().guide_weight,
               element);
    draw_centred(c, block, small, category.head, {middle, 15_mm}, element);
    return;
  }
  const bool has_key = !category.key_word.empty();
  draw_centred(c, block, head_style(c, category), category.head,
               {middle, has_key ? 9_mm : 11.5_mm},
               add_heard_as(c, element, category.head, heard_head(category)));
  if (!has_key) return;
  draw_centred(c, block, small, category.key_word, {middle, 16_mm}, element);
}

// The same on a card, which is low: two parts stand beside each other.
void draw_head_card(Composer& c, Block& block, const Category& category,
                    const Rect& place, ElementId element) {
  constexpr Length kBetween = 3_mm;
  constexpr Length kSquares = 12_mm;
  const bool by_place = category.place >= 0;
  const bool has_key = !category.key_word.empty();
  const Length room = place.width - 8_mm -
                      (by_place  ? kSquares + kBetween
                       : has_key ? kBetween
                                 : 0_mm);
  TextStyle style = head_style(c, category);
  TextStyle small = c.style().learner_text();
  const auto width = [&](const TextStyle& text, const std::string& word) {
    return word.empty() ? 0_mm : width_of(c.shape(text, word));
  };
  const Length needed =
      width(style, category.head) + width(small, category.key_word);
  style = fitted_style(style, needed, room);
  small = fitted_style(small, needed, room);
  const Length head = width(style, category.head);
  const Length all =
      place.width - 8_mm - room + head + width(small, category.key_word);
  Length x = place.x + (place.width - all) / 2;
  if (by_place) {
    draw_place(block, category.place,
               {x + kSquares / 2, place.y + place.height / 2},
               c.style().guide_weight, element);
    x += kSquares + kBetween;
  }
  // All of them on one line.
  const Length base = place.y + (place.height - style.line_height()) / 2 +
                      baseline_in_line(style);
  draw_text(
      c, block, style, category.head, {x, base},
      by_place ? element
               : add_heard_as(c, element, category.head, heard_head(category)));
  if (has_key) {
    draw_text(c, block, small, category.key_word, {x + head + kBetween, base},
              element);
  }
}

// The column with a word written in it already: the first that keeps some for
// the learner; -1 where none is.
int model_column(const SheetInput& in, const std::vector<Category>& all) {
  std::size_t words = 0;
  for (const Category& category : all) words += category.words.size();
  // A low cell has no room for a box.
  constexpr Length kLowest = 14_mm;
  if (in.options.flag("cards") || !is_model_asked(in.options, words) ||
      in.options.length("cell-height") < kLowest) {
    return -1;
  }
  const auto several = std::ranges::find_if(
      all, [](const Category& category) { return category.words.size() > 1; });
  return several == all.end() ? -1 : static_cast<int>(several - all.begin());
}

// A word in its cell, in a box.
void draw_model(Composer& c, Block& block, const AnalyzedWord& word,
                const Rect& cell, ElementId parent) {
  const Rect box{cell.x + 1.5_mm, cell.y + 1_mm, cell.width - 3_mm,
                 cell.height - 2_mm};
  const From from(c, word.spelling.span);
  draw_model_frame(c, block, box, parent);
  const Length above = model_room(c.style()).above;
  const Rect room{box.x + 2_mm, box.y + above, box.width - 4_mm,
                  box.height - above - 0.5_mm};
  TextStyle style = c.style().text(c.style().word_size);
  style.size = std::min(style.size, scaled(room.height, 0.9));
  style = fitted_style(style, width_of(c.shape(style, word.reading.word)),
                       room.width);
  draw_in_middle(c, block, style, word.reading.word, room, parent);
}

void add_mat(const SheetInput& in, Composer& c,
             const std::vector<Category>& all) {
  const auto columns = static_cast<int>(all.size());
  const Length width = c.width() / columns;
  const Length head = kHead;
  const Length cell = in.options.length("cell-height");
  int rows = 0;
  for (const Category& category : all) {
    rows = std::max(rows, static_cast<int>(category.words.size()));
  }
  rows += in.options.count("spare-cells");
  Length room = c.body().height - head;
  if (!c.blocks().empty()) room -= c.blocks().back().height + kBelowBank;
  rows = std::clamp(rows, 1, std::max(1, static_cast<int>(room / cell)));
  Block& block = c.block(head + cell * rows, kBelowBank);
  const ElementId table = c.add(Role::table);
  const ElementId head_row = c.add(Role::table_row, table);
  const Stroke wall{.width = c.style().box_weight};
  const Stroke thin = thin_stroke(c.style());
  for (int i = 0; i < columns; ++i) {
    const ElementId element = add_head_cell(c, head_row);
    block.shade({width * i, 0_mm, width, head}, kHeadGround);
    draw_head(c, block, all[static_cast<std::size_t>(i)], width * i + width / 2,
              element);
  }
  const ElementId body_row = c.add(Role::table_row, table);
  const int model = model_column(in, all);
  for (int i = 0; i < columns; ++i) {
    const ElementId column = add_data_cell(c, body_row);
    const bool has_model = i == model;
    if (has_model) {
      const auto& words = all[static_cast<std::size_t>(i)].words;
      draw_model(c, block, *words.front(), {width * i, head, width, cell},
                 column);
    }
    block.frame(
        {width * i, 0_mm, width, head + cell * rows}, wall,
        add_empty_places(c, column, has_model ? rows - 1 : rows, "words"));
  }
  for (int row = 0; row < rows; ++row) {
    const Length y = head + cell * row;
    block.line({0_mm, y}, {c.width(), y}, row == 0 ? wall : thin);
  }
}

// The words of all columns, mixed.
std::vector<const AnalyzedWord*> mixed(const SheetInput& in,
                                       const std::vector<Category>& all) {
  std::vector<const AnalyzedWord*> words;
  for (const Category& category : all) {
    words.insert(words.end(), category.words.begin(), category.words.end());
  }
  Random random(text_hash("word-sort", in.lesson.seed));
  shuffle(words, random);
  return words;
}

// A card as wide as the widest word asks for, in the layout's own size of
// words.
CutSet cards(const SheetInput& in, Composer& c) {
  const auto all = categories(in);
  const auto words = mixed(in, all);
  TextStyle style = c.style().text(c.style().word_size);
  const Length widest = widest_word(c, style, words);
  const auto columns = static_cast<std::int64_t>(
      std::clamp(static_cast<int>(c.width() / (widest + 8_mm)), 1, 4));
  CutSet set;
  set.width = c.width() / columns;
  style = fitted_style(style, widest, set.width - 6_mm);
  // From the tallest letter to the lowest is a little more than the size.
  set.least = std::max(14_mm, scaled(style.size, 1 / 0.85) + 2_mm);
  set.best = std::max(set.least, scaled(in.options.length("cell-height"), 1.3));
  for (const Category& category : all) {
    Card card;
    card.front = [&c, category](Block& block, const Rect& place,
                                ElementId element) {
      draw_head_card(c, block, category, place, element);
    };
    set.heads.push_back(std::move(card));
  }
  for (const AnalyzedWord* word : words) {
    Card card;
    card.front = text_side(c, style, word->reading.word);
    card.from = word->spelling.span;
    set.cards.push_back(std::move(card));
  }
  return set;
}

bool has_cards(const SheetInput& in) { return in.options.flag("cards"); }

void compose(const SheetInput& in, Composer& c) {
  const auto all = categories(in);
  if (!has_cards(in)) {
    auto words = mixed(in, all);
    if (const int model = model_column(in, all); model >= 0) {
      std::erase(words, all[static_cast<std::size_t>(model)].words.front());
    }
    // On a screen they are read from the back of the room.
    const Length far = scaled(c.style().word_size, 0.55);
    add_word_bank(c, words, c.style().on_paper ? Length() : far);
  }
  if (!has_cards(in) || in.options.flag("mat")) add_mat(in, c, all);
}

Direction other_direction(const SheetInput& in) {
  const bool by_sound = ed_columns(in.lesson).size() > 1;
  if (in.options.flag("cards")) {
    if (!by_sound) return {};
    return {"Lay out the framed cards. Say each word. What does its -ed say?",
            Action::say};
  }
  if (by_sound) {
    return {"Say each word. What does its -ed say? Write it there.",
            Action::write};
  }
  return {"Say each word. Write it in its column.", Action::write};
}

void answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  for (const Category& category : categories(in)) {
    std::vector<TextPiece> pieces = {{category.said + ": ", strong}};
    for (std::size_t i = 0; i < category.words.size(); ++i) {
      const AnalyzedWord& word = *category.words[i];
      std::string text = (i == 0 ? "" : ", ") + word.reading.word;
      if (category.by_sound) {
        text += fmt::format(" ({})", sound_before_ed(in.lesson, word));
      }
      pieces.push_back({std::move(text), plain});
    }
    add_paragraph(c, pieces);
  }
  for (const LessonPattern& pattern : in.lesson.patterns) {
    const From from(c, pattern.written.span);
    const std::string_view id = in.lesson.phonics->patterns()[pattern.id].id;
    if (const PatternText* text = find_pattern_text(id)) {
      add_paragraph(c, plain, fmt::format("The rule: {}", text->teacher));
    }
  }
}

const SheetKind kKind = {
    .name = "word-sort",
    .title = "Word sort",
    .direction = "Lay out the framed cards. Say each word. Where does it fit?",
    .action = Action::say,
    .other_direction = other_direction,
    .summary = "words to sort into columns by how they are spelled",
    .minutes = 9,
    .materials = "scissors",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::word_sort,
    .has_cards = has_cards,
    .cards = cards,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::word_sort_sheet
