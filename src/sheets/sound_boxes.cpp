// The learner taps the sounds of a word, writes one grapheme to a box, then the
// whole word on the line below. On the page: about four numbered words, each
// with a picture or an ear (the teacher says it), a tap dot over every box,
// boxes of one size, a narrow dashed slot for a silent final e. The first word
// is done in a box, "Like this"; in the next some letters are given, and the
// last ones are empty.

#include "layout/sound_boxes.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/begun_line.h"
#include "layout/heard.h"
#include "layout/model_frame.h"
#include "layout/picture_frame.h"
#include "layout/ruled_lines.h"
#include "sheets/box_words.h"
#include "sheets/common_options.h"
#include "sheets/given_letters.h"
#include "sheets/revealed_boxes.h"
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
     .help = "what tells the word: a picture (an ear where there is none), the "
             "word, or the teacher's voice",
     .choices = "picture word dictated"},
    {"picture", Kind::length, "26 mm", "side of the picture's square", "10 mm",
     "50 mm"},
    kModelOption,
    {.name = "given",
     .kind = Kind::choice,
     .fallback = "fading",
     .help =
         "what is printed in the boxes; fading: letters in the first words, "
         "nothing in the last",
     .choices = "nothing first pattern everything fading"},
    {"slots", Kind::flag, "yes", "a dashed slot for a silent final e"},
    {"word-line", Kind::flag, "yes", "a line for the whole word"},
    kLongerFirstOption,
    {"reveal", Kind::flag, "no",
     "each word on two pages, empty and then filled in, as large as fit: for a "
     "board"},
};

constexpr Length kGap = 5_mm;
constexpr Length kBesidePicture = 2.5_mm;  // the same where a box takes room
constexpr Length kEar = 11_mm;
constexpr Length kBelowBoxes = 3_mm;  // to the line for the word
// From one word to the next at least: where all stand in even rows, and where
// they close up.
constexpr Length kBetweenEven = 4_mm;
constexpr Length kBetweenOthers = 7_mm;
// How close they come where that saves a page.
constexpr Length kClosest = 2_mm;

struct Item {
  std::size_t number = 1;
  const AnalyzedWord* word = nullptr;
  std::vector<SoundBox> boxes;
  std::vector<std::vector<SoundBox>> rows;
  BoxFill fill = BoxFill::empty;
  bool model = false;
};

// How the page is shared out.
struct Plan {
  std::vector<Item> items;
  BoxMeasures measures;
  double print = 1;  // of what is printed in boxes
  ModelRoom around;  // of the model; nothing where there is none
  Length prompt;     // left edge of numbers and pictures
  Length prompt_width;
  Length boxes;    // left edge of the boxes
  Length right;    // where all lines end
  Length tallest;  // without the room around the model
  Length between;
  bool even = true;         // all words stand in as many rows
  std::size_t on_page = 1;  // of even rows
  std::size_t pages = 1;
};

bool is_prompt(const SheetInput& in, std::string_view prompt) {
  return in.options.choice("prompt") == prompt;
}

std::vector<const AnalyzedWord*> chosen(const SheetInput& in) {
  return box_words(in, in.options);
}

bool is_heard(const SheetInput& in, const AnalyzedWord& word) {
  return is_box_word_heard(in, in.options, word);
}

BoxFill fill_of(const SheetInput& in) {
  const std::string& given = in.options.choice("given");
  return given == "everything" ? BoxFill::all
         : given == "pattern"  ? BoxFill::pattern
         : given == "first"    ? BoxFill::first
                               : BoxFill::empty;
}

// The number above the boxes' dots, as tall as these leave room for.
TextStyle number_style(const Style& style) { return style.learner_text(); }

Length number_base(const Style& style) {
  const TextStyle text = number_style(style);
  return at_size(*text.font, text.size, text.font->cap_height());
}

// From the top of a word to its picture or ear, below the number.
Length picture_top(const Style& style) {
  return std::max(5.5_mm, number_base(style) + 1.5_mm);
}

// Room at the left for what tells the word.
Length prompt_width(const SheetInput& in, Composer& c) {
  const auto words = chosen(in);
  if (is_prompt(in, "word")) {
    return widest_word(c, c.style().text(c.style().word_size), words);
  }
  const bool all_heard = std::ranges::all_of(
      words, [&](const AnalyzedWord* w) { return is_heard(in, *w); });
  return all_heard ? kEar + 1_mm : in.options.length("picture");
}

Length item_height(const SheetInput& in, const Composer& c, const Item& item,
                   const BoxMeasures& measures) {
  const auto rows = static_cast<std::int64_t>(item.rows.size());
  Length height = (row_height(measures) + kBelowBoxes) * rows;
  if (in.options.flag("word-line")) {
    const Ruling ruling = ruling_of(in, c.style());
    height += set_height(ruling);
    // Print hangs less far below the line than the hand may.
    if (item.model) height -= scaled(ruling.x_height, 0.4);
  }
  if (!is_prompt(in, "picture") || is_heard(in, *item.word)) return height;
  return std::max(height,
                  in.options.length("picture") + picture_top(c.style()));
}

// Letters are given in the first words of the first page; at its end the
// learner is alone, and on later pages.
void fade(std::vector<Item>& items, std::size_t on_page) {
  const std::size_t first_page = std::min(items.size(), on_page);
  const std::size_t alone =
      std::max<std::size_t>(first_page - 1, items.front().model ? 2 : 1);
  std::size_t step = 0;
  for (std::size_t i = 0; i < alone && i < items.size() && step < 2; ++i) {
    if (items[i].model) continue;
    const AnalyzedWord& word = *items[i].word;
    items[i].boxes =
        boxes_of(word, step == 0 ? half_given(word) : one_given(word));
    items[i].fill = BoxFill::given;
    ++step;
  }
}

// The height of a word's block without the blank behind it.
Length block_height(const SheetInput& in, const Composer& c, const Plan& plan,
                    const Item& item) {
  const Length own = item_height(in, c, item, plan.measures);
  if (item.model) return own + plan.around.height();
  return plan.even ? plan.tallest : own;
}

void measure_items(const SheetInput& in, const Composer& c, Plan& plan) {
  for (Item& item : plan.items) {
    item.rows = box_rows(item.boxes, plan.measures, plan.right - plan.boxes);
  }
  plan.tallest = Length();
  for (const Item& item : plan.items) {
    plan.tallest =
        std::max(plan.tallest, item_height(in, c, item, plan.measures));
  }
  plan.even = std::ranges::all_of(plan.items, [&](const Item& item) {
    return item.rows.size() == plan.items.front().rows.size();
  });
}

// Shares the words out among pages, at least so far from each other.
void share_out_at(const SheetInput& in, const Composer& c, Plan& plan,
                  Length between) {
  plan.between = between;
  plan.pages = 1;
  std::size_t on_first = 0;
  Length used;
  for (const Item& item : plan.items) {
    const Length height = block_height(in, c, plan, item);
    if (used > Length()) used += between;
    if (used > Length() && used + height > c.body().height) {
      ++plan.pages;
      used = Length();
    }
    used += height;
    if (plan.pages == 1) ++on_first;
  }
  const auto words = static_cast<int>(plan.items.size());
  const int most = in.options.count("per-page");
  plan.on_page = static_cast<std::size_t>(
      even_rows(words, std::clamp(static_cast<int>(on_first), 1, most)));
  if (!plan.even) return;
  plan.pages = (plan.items.size() + plan.on_page - 1) / plan.on_page;
}

// The same as far apart as may be on the fewest pages.
void share_out(const SheetInput& in, const Composer& c, Plan& plan) {
  share_out_at(in, c, plan, kClosest);
  const std::size_t least = plan.pages;
  share_out_at(in, c, plan, plan.even ? kBetweenEven : kBetweenOthers);
  if (plan.pages > least) share_out_at(in, c, plan, kBetweenEven);
  if (plan.pages > least) share_out_at(in, c, plan, kClosest);
}

Plan plan_words(const SheetInput& in, Composer& c, bool model) {
  Plan plan;
  std::vector<std::vector<SoundBox>> all;
  for (const AnalyzedWord* word : chosen(in)) {
    plan.items.push_back({.number = plan.items.size() + 1,
                          .word = word,
                          .boxes = boxes_of(*word),
                          .fill = fill_of(in)});
    all.push_back(plan.items.back().boxes);
  }
  if (model) {
    plan.items.front().model = true;
    plan.items.front().fill = BoxFill::all;
    plan.around = model_room(c.style());
    plan.prompt = plan.around.side;
  }
  BoxRowOptions printed;
  printed.text = c.style().text(c.style().word_size);
  const Length x_height = in.options.length("line-height");
  // Boxes are as wide as what is printed in all of them needs; where it is only
  // in some, the print is smaller rather than the boxes wider.
  printed.fill = fill_of(in);
  plan.measures =
      measure_boxes(all, x_height,
                    std::max(in.options.length("least-box"),
                             printed_box_width(c, all, x_height, printed)));
  printed.fill = BoxFill::all;
  const Length wide = printed_box_width(c, all, x_height, printed);
  if (wide > plan.measures.width) {
    plan.print = static_cast<double>(plan.measures.width.mils()) /
                 static_cast<double>(wide.mils());
  }
  // The boxes nearly keep their place: pictures have some blank of their own.
  const bool word = is_prompt(in, "word");
  plan.prompt_width = prompt_width(in, c);
  plan.boxes = plan.prompt + plan.prompt_width +
               (word || !model ? kGap : kBesidePicture);
  plan.right = c.width() - plan.prompt;
  measure_items(in, c, plan);
  share_out(in, c, plan);
  return plan;
}

// The first word is done where that costs no page.
Plan plan_page(const SheetInput& in, Composer& c) {
  Plan plan = plan_words(in, c, false);
  if (has_box_model(in.options, plan.items.size())) {
    Plan with = plan_words(in, c, true);
    if (with.pages <= plan.pages) plan = std::move(with);
  }
  if (in.options.choice("given") == "fading") fade(plan.items, plan.on_page);
  measure_items(in, c, plan);
  return plan;
}

void draw_prompt(const SheetInput& in, Composer& c, Block& block,
                 const Item& item, const Plan& plan, Point at, ElementId label,
                 ElementId body) {
  const Style& style = c.style();
  draw_text(c, block, number_style(style), fmt::format("{}", item.number),
            {at.x, at.y + number_base(style)}, label);
  const BoxMeasures& measures = plan.measures;
  if (is_prompt(in, "word")) {
    const Length base =
        row_height(measures) - measures.height() + measures.base();
    draw_text(c, block, style.text(style.word_size), item.word->reading.word,
              {at.x, at.y + base}, body);
    return;
  }
  if (is_heard(in, *item.word)) {
    const Length middle = row_height(measures) - measures.height() / 2;
    draw_ear(c, block,
             {at.x + (plan.prompt_width - kEar) / 2,
              at.y + std::max(picture_top(style), middle - kEar / 2)},
             kEar, body);
    return;
  }
  const Length side = in.options.length("picture");
  const Picture* picture = in.pictures.find(item.word->reading.word);
  const ElementId picture_figure =
      add_picture(c, body, picture,
                  {.word = item.word->reading.word, .number = item.number});
  draw_picture(block, style, picture,
               {at.x, at.y + picture_top(style), side, side}, picture_figure);
}

void draw_item(const SheetInput& in, Composer& c, Block& block,
               const Item& item, const Plan& plan, Length top, ElementId label,
               ElementId body) {
  draw_prompt(in, c, block, item, plan, {plan.prompt, top}, label, body);
  BoxRowOptions options;
  options.text = c.style().text(c.style().word_size);
  options.slots = in.options.flag("slots");
  options.fill = item.fill;
  options.print = plan.print;
  const ElementId figure = c.add(
      Role::figure, body,
      heard_boxes(item.boxes, static_cast<int>(item.rows.size()), options));
  Length y = top;
  for (const auto& row : item.rows) {
    draw_box_row(c, block, row, plan.measures, options, {plan.boxes, y},
                 figure);
    options.first_row = false;
    y += row_height(plan.measures) + kBelowBoxes;
  }
  if (!in.options.flag("word-line")) return;
  const Ruling ruling = ruling_of(in, c.style());
  const Length width = plan.right - plan.boxes;
  if (item.model) {
    draw_begun_line(c, block, ruling, item.word->reading.word, {plan.boxes, y},
                    width, body, false);
    return;
  }
  draw_set(block, c.style(), ruling, {plan.boxes, y}, width,
           add_writing_lines(c, body));
}

void add_item(const SheetInput& in, Composer& c, const Plan& plan,
              const Item& item, ElementId list) {
  Block& block = c.blocks().back();
  const From from(c, item.word->spelling.span);
  const ElementId element = c.add(Role::list_item, list);
  const ElementId label = c.add(Role::list_label, element);
  Length top;
  if (item.model) {
    top = plan.around.above;
    // The number stands in the frame, so the item begins with the frame.
    draw_model_frame(c, block, model_box(c, block.height), label);
  }
  const ElementId body = c.add(Role::list_body, element);
  draw_item(in, c, block, item, plan, top, label, body);
}

// How far the words of a page are apart, from block to block.
Length gap_of(const SheetInput& in, const Composer& c, const Plan& plan) {
  const auto words = std::min(plan.on_page, plan.items.size());
  if (!plan.even || words < 2) return plan.between;
  Length used = block_height(in, c, plan, plan.items.front());
  used += plan.tallest * static_cast<std::int64_t>(words - 1);
  // Not down to the foot where there are few.
  return std::clamp(
      (c.body().height - used) / static_cast<std::int64_t>(words - 1),
      plan.between, scaled(plan.tallest, 0.35));
}

void compose(const SheetInput& in, Composer& c) {
  if (in.options.flag("reveal")) {
    add_revealed_boxes(c, chosen(in),
                       {.fill = fill_of(in),
                        .slots = in.options.flag("slots"),
                        .least_box = in.options.length("least-box"),
                        .x_height = in.options.length("line-height")});
    return;
  }
  const Plan plan = plan_page(in, c);
  const Length gap = gap_of(in, c, plan);
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < plan.items.size(); ++i) {
    const Item& item = plan.items[i];
    // Words of one row each stand in even rows; a longer word among them takes
    // the room that it needs, and the others close up.
    Block& block = c.block(block_height(in, c, plan, item), gap);
    block.new_page = plan.even && i > 0 && i % plan.on_page == 0;
    add_item(in, c, plan, item, list);
  }
}

std::string missing(const SheetInput& in) {
  return chosen(in).empty() ? "no word has the pattern" : "";
}

// How the learner gets to know the words.
enum class Told { seen, heard, both };

Told told(const SheetInput& in) {
  const auto words = chosen(in);
  const auto heard = std::ranges::count_if(
      words, [&](const AnalyzedWord* w) { return is_heard(in, *w); });
  if (heard == 0) return Told::seen;
  return heard == std::ssize(words) ? Told::heard : Told::both;
}

Direction other_direction(const SheetInput& in) {
  const bool line = in.options.flag("word-line");
  const Told by = told(in);
  const Action action = by == Told::heard ? Action::listen : Action::tap;
  const std::string& given = in.options.choice("given");
  if (in.plain_voice && (given == "nothing" || given == "fading")) {
    return {line ? "Write the letters for each sound in a box, then the whole "
                   "word."
                 : "Write the letters for each sound in a box."};
  }
  if (given == "everything") {
    return {line ? "Tap each dot and say its sound. Write the word."
                 : "Tap each dot and say its sound. Say the word.",
            action};
  }
  struct Texts {
    std::string_view with_line, without;
  };
  constexpr Texts kMissing[] = {
      {"Tap the sounds. Write what is missing. Write the word.",
       "Tap the sounds. Write what is missing."},
      {"Listen. Tap. Write what is missing. Write the word.",
       "Listen. Tap the sounds. Write what is missing."},
      {"Look or listen. Tap. Write what is missing. Write the word.",
       "Look or listen. Tap the sounds. Write what is missing."}};
  constexpr Texts kEach[] = {
      {"Tap the sounds. Write each sound in a box. Write the word.",
       "Tap the sounds. Write each sound in a box."},
      {"Listen. Tap. Write each sound in a box. Write the word.",
       "Listen. Tap the sounds. Write each sound in a box."},
      {"Look or listen. Tap. Write each sound in a box. Write the word.",
       "Look or listen. Tap. Write each sound in a box."}};
  const bool all_open = given == "nothing" || given == "fading";
  const Texts& texts =
      (all_open ? kEach : kMissing)[static_cast<std::size_t>(by)];
  return {line ? texts.with_line : texts.without, action};
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
    .share = sheet_script::share_of_boxes,
    .script = sheet_script::sound_boxes,
    .script_extra = sheet_script::sound_boxes_extra,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::sound_boxes_sheet
