// The learner taps the sounds of a word, writes one grapheme to a box, then the
// whole word on the line below. On the page: about four numbered words, each
// with a picture or an ear (the teacher says it), a tap dot over every box,
// boxes of one size, a narrow dashed slot for a silent final e. The first word
// is done in a box, "Like this"; in the next some letters are given, and the
// last ones are empty.

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "layout/begun_line.h"
#include "layout/heard.h"
#include "layout/model_frame.h"
#include "layout/picture_frame.h"
#include "layout/ruled_lines.h"
#include "layout/sound_boxes.h"
#include "sheets/common_options.h"
#include "sheets/revealed_boxes.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/sound_boxes_plan.h"
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

// Slots for silent letters. Where some words of a lesson that contrasts
// patterns have one and others none, the slot would answer what the learner is
// to hear.
bool has_slots(const SheetInput& in) {
  if (!in.options.flag("slots")) return false;
  if (in.lesson.patterns.size() < 2) return true;
  const auto words = chosen(in);
  const auto with = std::ranges::count_if(words, [](const AnalyzedWord* word) {
    return std::ranges::any_of(boxes_of(*word), [](const SoundBox& box) {
      return !box.slot_after.empty();
    });
  });
  return with == 0 || with == std::ssize(words);
}

void draw_prompt(const SheetInput& in, Composer& c, Block& block,
                 const Item& item, const Plan& plan, Point at, ElementId label,
                 ElementId body) {
  const Style& style = c.style();
  draw_text(c, block, style.learner_text(), fmt::format("{}", item.number),
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
  options.slots = has_slots(in);
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

// Where words close up since some need several rows: pages that are about
// equally full, and on each the words as far apart as it has room.
void spread(Composer& c) {
  constexpr double kMost = 4;
  even_pages(c.blocks(), c.body().height);
  std::vector<Block> spread, page;
  const auto end_page = [&] {
    stretch_blanks(page, c.body().height - 4_mm, 1, kMost);
    std::ranges::move(page, std::back_inserter(spread));
    page.clear();
  };
  for (Block& block : c.blocks()) {
    if (block.new_page) end_page();
    page.push_back(std::move(block));
  }
  end_page();
  c.blocks() = std::move(spread);
}

void compose(const SheetInput& in, Composer& c) {
  if (in.options.flag("reveal")) {
    add_revealed_boxes(c, chosen(in),
                       {.slots = has_slots(in),
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
  if (!plan.even) spread(c);
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
