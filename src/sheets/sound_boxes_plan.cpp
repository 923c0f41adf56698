#include "sheets/sound_boxes_plan.h"

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>

#include "layout/ruled_lines.h"
#include "sheets/box_words.h"
#include "sheets/common_options.h"
#include "sheets/given_letters.h"
#include "sheets/word_parts.h"

namespace sheaf::sound_boxes_sheet {

using namespace literals;

bool is_prompt(const SheetInput& in, std::string_view prompt) {
  return in.options.choice("prompt") == prompt;
}

std::vector<const AnalyzedWord*> chosen(const SheetInput& in) {
  return box_words(in, in.options);
}

bool is_heard(const SheetInput& in, const AnalyzedWord& word) {
  return is_box_word_heard(in, in.options, word);
}

Length number_base(const Style& style) {
  const TextStyle text = style.learner_text();
  return at_size(*text.font, text.size, text.font->cap_height());
}

Length picture_top(const Style& style) {
  return std::max(5.5_mm, number_base(style) + 1.5_mm);
}

namespace {

constexpr Length kGap = 5_mm;
constexpr Length kBesidePicture = 2.5_mm;  // the same where a box takes room
// From one word to the next at least: where all stand in even rows, and where
// they close up.
constexpr Length kBetweenEven = 4_mm;
constexpr Length kBetweenOthers = 7_mm;
// How close they come where that saves a page.
constexpr Length kClosest = 2_mm;

BoxFill fill_of(const SheetInput& in) {
  const std::string& given = in.options.choice("given");
  return given == "everything" ? BoxFill::all
         : given == "pattern"  ? BoxFill::pattern
         : given == "first"    ? BoxFill::first
                               : BoxFill::empty;
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

}  // namespace

Length block_height(const SheetInput& in, const Composer& c, const Plan& plan,
                    const Item& item) {
  const Length own = item_height(in, c, item, plan.measures);
  if (item.model) return own + plan.around.height();
  return plan.even ? plan.tallest : own;
}

namespace {

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
  fit_beat_gaps(all, plan.right - plan.boxes, plan.measures);
  measure_items(in, c, plan);
  share_out(in, c, plan);
  return plan;
}

}  // namespace

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

Length gap_of(const SheetInput& in, const Composer& c, const Plan& plan) {
  const auto words = std::min(plan.on_page, plan.items.size());
  if (!plan.even || words < 2) return plan.between;
  Length used = block_height(in, c, plan, plan.items.front());
  used += plan.tallest * static_cast<std::int64_t>(words - 1);
  // As much is left at the foot, and more where there are few.
  return std::clamp((c.body().height - used) / static_cast<std::int64_t>(words),
                    plan.between, scaled(plan.tallest, 0.35));
}

}  // namespace sheaf::sound_boxes_sheet
