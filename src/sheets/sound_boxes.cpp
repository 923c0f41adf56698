// The learner taps the sounds of a word, writes one grapheme to a box, then the
// whole word on the line below. On the page: about four words, each with a
// picture (or a frame to draw in), the word itself or only a number at the
// left, a tap dot over every box, boxes of one size, a narrow dashed slot for a
// silent final e. Help fades from everything printed to nothing.

#include "layout/sound_boxes.h"
#include "layout/heard.h"
#include "layout/picture_frame.h"
#include "layout/ruled_lines.h"
#include "layout/table.h"

#include <fmt/format.h>

#include <algorithm>

#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::sound_boxes_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    kPractiseWordsOption,
    {"per-page", Kind::count, "4", "words on a page", "1", "8"},
    {"least-box", Kind::length, "15 mm", "least width of a box", "10 mm",
     "40 mm"},
    line_height_option("12 mm"),
    {.name = "prompt",
     .kind = Kind::choice,
     .fallback = "picture",
     .help = "what tells the word: a picture, the word, or the teacher's voice",
     .choices = "picture word dictated"},
    {"picture", Kind::length, "26 mm", "side of the picture's square", "10 mm",
     "50 mm"},
    {.name = "given",
     .kind = Kind::choice,
     .fallback = "nothing",
     .help = "what is printed in the boxes",
     .choices = "nothing first pattern everything"},
    {"slots", Kind::flag, "yes", "a dashed slot for a silent final e"},
    {"word-line", Kind::flag, "yes", "a line for the whole word"},
    kLongerFirstOption,
    {"reveal", Kind::flag, "no",
     "each word on two pages, empty and then filled in, as large as fit: for a "
     "board"},
};

constexpr Length kGap = 5_mm;

struct Item {
  std::size_t number;
  const AnalyzedWord* word;
  std::vector<SoundBox> boxes;
  std::vector<std::vector<SoundBox>> rows;
  BoxMeasures measures = {};
};

BoxFill fill_of(const SheetInput& in) {
  const std::string& given = in.options.choice("given");
  return given == "everything" ? BoxFill::all
         : given == "pattern"  ? BoxFill::pattern
         : given == "first"    ? BoxFill::first
                               : BoxFill::empty;
}

std::vector<const AnalyzedWord*> chosen(const SheetInput& in) {
  std::vector<const AnalyzedWord*> words = mixed_words(in.lesson, "boxes");
  std::erase_if(words, [](const AnalyzedWord* w) { return !w->has_pattern(); });
  order_by_length(in, words);
  keep_first(words, in.options.count("words"));
  return words;
}

// Room at the left for what tells the word.
Length prompt_width(const SheetInput& in, Composer& c) {
  const std::string& prompt = in.options.choice("prompt");
  if (prompt == "picture") return in.options.length("picture");
  if (prompt == "dictated") return 10_mm;
  return widest_word(c, c.style().text(c.style().word_size), chosen(in));
}

Length item_height(const SheetInput& in, const Composer& c, const Item& item,
                   const BoxMeasures& measures) {
  const auto rows = static_cast<std::int64_t>(item.rows.size());
  Length height = (row_height(measures) + 3_mm) * rows;
  if (in.options.flag("word-line")) {
    height += set_height(ruling_of(in, c.style()));
  }
  if (in.options.choice("prompt") != "picture") return height;
  return std::max(height, in.options.length("picture") + 5.5_mm);
}

void draw_prompt(const SheetInput& in, Composer& c, Block& block,
                 const Item& item, const BoxMeasures& measures, ElementId label,
                 ElementId body) {
  const std::string& prompt = in.options.choice("prompt");
  const Length base =
      row_height(measures) - measures.height() + measures.base();
  if (prompt == "dictated") {
    draw_text(c, block, c.style().learner_text(),
              fmt::format("{}", item.number), {0_mm, base}, label);
    return;
  }
  if (prompt == "word") {
    draw_text(c, block, c.style().text(c.style().word_size),
              item.word->reading.word, {0_mm, base}, body);
    return;
  }
  const Length side = in.options.length("picture");
  const Picture* picture = in.pictures.find(item.word->reading.word);
  const ElementId picture_figure =
      add_picture(c, body, picture,
                  {.word = item.word->reading.word,
                   .number = static_cast<std::size_t>(item.number)});
  draw_picture(block, c.style(), picture, {0_mm, 5.5_mm, side, side},
               picture_figure);
}

void draw_item(const SheetInput& in, Composer& c, Block& block,
               const Item& item, BoxFill fill, ElementId label,
               ElementId body) {
  const BoxMeasures& measures = item.measures;
  draw_prompt(in, c, block, item, measures, label, body);
  BoxRowOptions options;
  options.text = c.style().text(c.style().word_size);
  options.slots = in.options.flag("slots");
  options.fill = fill;
  if (in.options.flag("reveal")) options.tap_dot = 4_mm;
  const ElementId figure = c.add(
      Role::figure, body,
      heard_boxes(item.boxes, static_cast<int>(item.rows.size()), options));
  const Length left = prompt_width(in, c) + kGap;
  Length y;
  for (const auto& row : item.rows) {
    draw_box_row(c, block, row, measures, options, {left, y}, figure);
    options.first_row = false;
    y += row_height(measures) + 3_mm;
  }
  if (in.options.flag("word-line")) {
    draw_set(block, c.style(), ruling_of(in, c.style()), {left, y},
             c.width() - left, add_writing_lines(c, body));
  }
}

bool has_label(const SheetInput& in) {
  return in.options.choice("prompt") == "dictated";
}

// The boxes of a word that has a page to itself, as large as the page allows;
// many are larger in two rows.
void grow(const SheetInput& in, Composer& c, Item& item, Length room) {
  constexpr double kStep = 1.04;
  constexpr double kMost = 4;
  const BoxMeasures own = item.measures;
  const std::size_t most_rows =
      std::max<std::size_t>(item.rows.size(), item.boxes.size() > 6 ? 2 : 1);
  for (double scale = kStep; scale < kMost; scale *= kStep) {
    Item larger = item;
    larger.measures = {scaled(own.width, scale), scaled(own.slot_width, scale),
                       scaled(own.x_height, scale)};
    larger.rows = box_rows(item.boxes, larger.measures, room);
    if (larger.rows.size() > most_rows ||
        row_width(larger.rows.front(), larger.measures) > room ||
        item_height(in, c, larger, larger.measures) > c.body().height) {
      return;
    }
    item = std::move(larger);
  }
}

// Each word in the middle of a page of its own, and on the next with its
// letters.
void add_revealed(const SheetInput& in, Composer& c, std::vector<Item>& items,
                  Length room) {
  const ElementId list = c.add(Role::list);
  for (Item& item : items) {
    grow(in, c, item, room);
    for (const BoxFill fill : {fill_of(in), BoxFill::all}) {
      Block& block = c.block(c.body().height);
      const From from(c, item.word->spelling.span);
      const ElementId entry = c.add(Role::list_item, list);
      const ElementId label =
          has_label(in) ? c.add(Role::list_label, entry) : kDecoration;
      draw_item(in, c, block, item, fill, label, c.add(Role::list_body, entry));
      const Length blank =
          block.height - item_height(in, c, item, item.measures);
      for (Mark& mark : block.marks) shift(mark, {0_mm, blank / 2});
    }
  }
}

void compose(const SheetInput& in, Composer& c) {
  std::vector<Item> items;
  std::vector<std::vector<SoundBox>> all;
  for (const AnalyzedWord* word : chosen(in)) {
    items.push_back(
        {.number = items.size() + 1, .word = word, .boxes = boxes_of(*word)});
    all.push_back(items.back().boxes);
  }
  BoxRowOptions printed;
  printed.fill = in.options.flag("reveal") ? BoxFill::all : fill_of(in);
  printed.text = c.style().text(c.style().word_size);
  const Length x_height = in.options.length("line-height");
  const BoxMeasures measures =
      measure_boxes(all, x_height,
                    std::max(in.options.length("least-box"),
                             printed_box_width(c, all, x_height, printed)));
  const Length room = c.width() - prompt_width(in, c) - kGap;
  Length tallest;
  for (Item& item : items) {
    item.measures = measures;
    item.rows = box_rows(item.boxes, measures, room);
    tallest = std::max(tallest, item_height(in, c, item, measures));
  }
  if (in.options.flag("reveal")) {
    add_revealed(in, c, items, room);
    return;
  }
  // Words of one row each stand in even rows; a longer word among them takes
  // the room that it needs, and the others close up.
  const bool even = std::ranges::all_of(items, [&](const Item& item) {
    return item.rows.size() == items.front().rows.size();
  });
  const int capacity =
      std::clamp(static_cast<int>((c.body().height + 4_mm) / (tallest + 4_mm)),
                 1, in.options.count("per-page"));
  const auto rows = static_cast<std::size_t>(
      even_rows(static_cast<int>(items.size()), capacity));
  const Length pitch =
      std::max(tallest, std::min(c.body().height / static_cast<int>(rows),
                                 scaled(tallest, 1.35)));
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < items.size(); ++i) {
    const bool last_of_page = i % rows + 1 == rows;
    Block& block = even ? c.block(last_of_page ? tallest : pitch)
                        : c.block(item_height(in, c, items[i], measures), 7_mm);
    block.new_page = even && i > 0 && i % rows == 0;
    const From from(c, items[i].word->spelling.span);
    const ElementId item = c.add(Role::list_item, list);
    const ElementId label =
        has_label(in) ? c.add(Role::list_label, item) : kDecoration;
    const ElementId body = c.add(Role::list_body, item);
    draw_item(in, c, block, items[i], fill_of(in), label, body);
  }
}

std::string missing(const SheetInput& in) {
  return chosen(in).empty() ? "no word has the pattern" : "";
}

Direction other_direction(const SheetInput& in) {
  const bool line = in.options.flag("word-line");
  const bool dictated = in.options.choice("prompt") == "dictated";
  const Action action = dictated ? Action::listen : Action::tap;
  const std::string& given = in.options.choice("given");
  if (in.plain_voice && given == "nothing") {
    return {line ? "Write the letters for each sound in a box, then the whole "
                   "word."
                 : "Write the letters for each sound in a box."};
  }
  if (given == "everything") {
    return {line ? "Tap each dot and say its sound. Write the word."
                 : "Tap each dot and say its sound. Say the word.",
            action};
  }
  if (given != "nothing" && dictated) {
    return {line ? "Listen. Tap. Write what is missing. Write the word."
                 : "Listen. Tap the sounds. Write what is missing.",
            action};
  }
  if (given != "nothing") {
    return {line ? "Tap the sounds. Write what is missing. Write the word."
                 : "Tap the sounds. Write what is missing.",
            action};
  }
  if (dictated) {
    return {line ? "Listen. Tap. Write each sound in a box. Write the word."
                 : "Listen. Tap the sounds. Write each sound in a box.",
            action};
  }
  if (line) return {};
  return {"Tap the sounds. Write each sound in a box.", action};
}

// "sh, i, p"; "c, a, k; e in the slot".
std::string heard_boxes(std::span<const SoundBox> boxes) {
  std::string said, slots;
  for (const SoundBox& box : boxes) {
    if (box.part == 0) said += (said.empty() ? "" : ", ") + box.letters;
    if (!box.slot_after.empty()) {
      slots += (slots.empty() ? "" : " and ") + box.slot_after;
    }
  }
  return slots.empty() ? said : fmt::format("{}; {} in the slot", said, slots);
}

// The same rows in small, filled in.
void answers(const SheetInput& in, Composer& c) {
  std::vector<std::vector<SoundBox>> all;
  const auto words = chosen(in);
  for (const AnalyzedWord* word : words) all.push_back(boxes_of(*word));
  BoxRowOptions options;
  options.fill = BoxFill::all;
  options.tap_dots = false;
  options.text = c.style().text(c.style().teacher_size);
  const BoxMeasures measures = measure_boxes(
      all, 2_mm, std::max(7_mm, printed_box_width(c, all, 2_mm, options)));
  const TextStyle text = c.style().teacher_text();
  const Length left = 42_mm;
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto rows = box_rows(all[i], measures, c.width() - left - 20_mm);
    const Length step = measures.height() + 1.5_mm;
    Block& block = c.block(step * static_cast<std::int64_t>(rows.size()));
    const From from(c, words[i]->spelling.span);
    const ElementId body = add_list_body(c, list);
    const Length base = measures.base() + 0.5_mm;
    draw_text(c, block, text,
              fmt::format("{}. {}", i + 1, words[i]->reading.word),
              {0_mm, base}, body);
    const ElementId figure =
        c.add(Role::figure, body,
              fmt::format("{}: {}",
                          counted(words[i]->reading.boxes(), "box", "boxes"),
                          heard_boxes(all[i])));
    Length y = measures.height() - row_height(measures);
    for (const auto& row : rows) {
      draw_box_row(c, block, row, measures, options, {left, y}, figure);
      y += step;
    }
    draw_text(c, block, text,
              counted(words[i]->reading.boxes(), "box", "boxes"),
              {c.width() - 18_mm, base}, figure);
  }
}

// The words of one day, in the order of the sheet.
TurnShare rows_of(const SheetInput& in, const DayStep& step) {
  return turn_share(chosen(in).size(), step.turn, step.turns);
}

std::string share(const SheetInput& in, const DayStep& step) {
  const TurnShare rows = rows_of(in, step);
  if (step.turns < 2 || rows.count == 0) return "";
  if (rows.count == 1) return fmt::format("word {}", rows.first + 1);
  return fmt::format("words {} to {}", rows.first + 1, rows.first + rows.count);
}

ScriptLines script(const SheetInput& in, const DayStep& step) {
  ScriptLines lines = sheet_script::tapping(in, step);
  const auto words = chosen(in);
  const TurnShare rows = rows_of(in, step);
  std::string text;
  for (std::size_t i = rows.first; i < rows.first + rows.count; ++i) {
    text += fmt::format("{}{}. {}", text.empty() ? "" : "; ", i + 1,
                        words[i]->reading.word);
  }
  if (!text.empty()) lines.insert(lines.begin(), {Lead::say, text + "."});
  return lines;
}

// What each box holds.
void add_table(const SheetInput& in, Composer& c) {
  Table table(c,
              {{.title = "No.", .share = 0, .fixed = 12_mm, .heard = "Number"},
               {"Word", 2},
               {"Graphemes", 3},
               {"Sounds", 3},
               {"Boxes", 1}});
  const TextStyle text = c.style().teacher_text();
  int number = 0;
  for (const AnalyzedWord* word : chosen(in)) {
    const From from(c, word->spelling.span);
    table.add_row({{{fmt::format("{}", ++number), text}},
                   {{word->reading.word, text}},
                   {spelled_piece(*word, text)},
                   {{sounds_of(in.lesson, *word), text}},
                   {{fmt::format("{}", word->reading.boxes()), text}}},
                  true);
  }
}

const SheetKind kKind = {
    .name = "sound-boxes",
    .title = "Sound boxes",
    .direction = "Tap the sounds. Write each sound in a box. Write the word.",
    .action = Action::tap,
    .other_direction = other_direction,
    .summary = "a box for each sound of a word, and a line for the word",
    .part = DayPart::spell,
    .daily = true,
    .minutes = 4,
    .materials = "counters",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .share = share,
    .script = script,
    .script_extra = add_table,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::sound_boxes_sheet
