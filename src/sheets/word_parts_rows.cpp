#include "sheets/word_parts_rows.h"

#include <algorithm>

#include "layout/begun_line.h"
#include "layout/heard.h"
#include "sheets/common_options.h"

namespace sheaf::word_parts_sheet {

using namespace literals;

namespace {
constexpr Length kBetweenItems = 6_mm;
constexpr Length kFramePad = 2.5_mm;  // beside text in a frame
}  // namespace

Length printed_room(const Composer& c, bool model) {
  return model ? c.width() - 2 * model_room(c.style()).side : c.width();
}

Plan plan_rows(const SheetInput& in, const Composer& c, const TextStyle& text,
               Length printed, Length by_hand, bool model) {
  Plan plan;
  plan.ruling = ruling_of(in, c.style());
  plan.text = text;
  plan.model = model;
  if (model) {
    plan.around = model_room(c.style());
    plan.left = model_room(c.style()).side;
    // Frames around parts may be taller than a low ruling.
    const Length base = baseline_in_line(text);
    const Length above = base + 0.5_mm - base_in_set(plan.ruling);
    const Length below = text.line_height() - base -
                         (set_height(plan.ruling) - base_in_set(plan.ruling));
    plan.around.above += std::max(0_mm, above);
    if (!plan.below) plan.around.below += std::max(0_mm, below);
  }
  plan.line_left = printed + kGap;
  plan.right = c.width() - plan.left;
  plan.below = plan.right - plan.left - plan.line_left < scaled(by_hand, 1.1);
  return plan;
}

namespace {

// Where the line of a row begins.
Point line_start(const Plan& plan, Point at) {
  if (plan.below) return {at.x, at.y + set_pitch(plan.ruling)};
  return {at.x + plan.line_left, at.y};
}

}  // namespace

void draw_writing_line(Composer& c, Block& block, const Plan& plan,
                       ElementId parent, Point at) {
  const ElementId line = add_writing_lines(c, parent);
  const Point start = line_start(plan, at);
  draw_set(block, c.style(), plan.ruling, start, plan.right - start.x, line);
}

Row add_row(Composer& c, const Plan& plan, std::size_t index, ElementId list) {
  const bool model = plan.model && index == 0;
  Length height = plan.height();
  if (model) height += plan.around.height();
  Row row;
  row.block = &add_item_block(c, height, index == 0);
  row.body = add_list_body(c, list);
  row.at = {plan.left, 0_mm};
  if (model) {
    draw_model_frame(c, *row.block, model_box(c, height), row.body);
    row.at.y = plan.around.above;
  }
  return row;
}

void draw_row_line(Composer& c, const Row& row, const Plan& plan,
                   std::size_t index, std::string_view word,
                   const std::vector<bool>& given) {
  const Point start = line_start(plan, row.at);
  const Length width = plan.right - start.x;
  // What is printed there is not one word with what stands before it.
  const auto part = [&] {
    draw_text(c, *row.block, plan.text, " ",
              {row.at.x, row.at.y + base_in_set(plan.ruling)}, row.body);
  };
  const bool done = plan.model && index == 0;
  if (done && begun_width(c, plan.ruling, word) <= width) {
    part();
    draw_begun_line(c, *row.block, plan.ruling, word, start, width, row.body,
                    false);
  } else if (plan.model && index == 1 && !given.empty() &&
             gapped_width(c, plan.ruling, word, given) <= width) {
    part();
    draw_gapped_word(c, *row.block, plan.ruling, word, given, start, width,
                     row.body);
  } else {
    draw_writing_line(c, *row.block, plan, row.body, row.at);
  }
}

void add_heading(Composer& c, std::string_view text) {
  add_subheading(c, c.style().text_size, text,
                 c.blocks().empty() ? 0_mm : 9_mm);
}

Block& add_item_block(Composer& c, Length height, bool first) {
  return c.block(height, first ? 2.5_mm : kBetweenItems);
}

Length by_hand(const SheetInput& in, const AnalyzedWord& word) {
  return hand_width(word.reading.word, in.options.length("line-height"));
}

Length framed_width(Composer& c, const TextStyle& style,
                    std::string_view text) {
  return width_of(c.shape(style, text)) + 2 * kFramePad;
}

void draw_framed(Composer& c, Block& block, const TextStyle& style,
                 std::string_view text, Point base, Length width,
                 ElementId element) {
  const Length own = width_of(c.shape(style, text));
  draw_text(c, block, style, text, {base.x + (width - own) / 2, base.y},
            element);
  block.frame(
      {base.x, base.y - baseline_in_line(style), width, style.line_height()},
      {.width = c.style().box_weight});
}

namespace {

Length parts_width(Composer& c, const TextStyle& style,
                   const std::vector<PartedWord>& words) {
  Length widest;
  for (const PartedWord& d : words) {
    Length width = -kFrameGap;
    for (const std::string& s : d.parts) {
      width += framed_width(c, style, s) + kFrameGap;
    }
    widest = std::max(widest, width);
  }
  return widest;
}

// The letters of the first part, where the word begins with it.
std::vector<bool> first_part(const PartedWord& d) {
  const std::string& word = d.word->reading.word;
  if (d.parts.empty() || !word.starts_with(d.parts.front())) return {};
  std::vector<bool> given(word.size(), false);
  std::fill_n(given.begin(), d.parts.front().size(), true);
  return given;
}

}  // namespace

void add_parted(const SheetInput& in, Composer& c,
                const std::vector<PartedWord>& words,
                std::string_view heading) {
  if (words.empty()) return;
  const bool model = is_model_asked(in.options, words.size());
  const TextStyle style = fitted_words(
      c, [&](const TextStyle& s) { return parts_width(c, s, words); },
      printed_room(c, model));
  Length hand;
  for (const PartedWord& d : words) hand = std::max(hand, by_hand(in, *d.word));
  const Plan plan =
      plan_rows(in, c, style, parts_width(c, style, words), hand, model);
  add_heading(c, heading);
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const PartedWord& d = words[i];
    const From from(c, d.word->spelling.span);
    const Row row = add_row(c, plan, i, list);
    const ElementId element = add_heard(c, row.body, heard_parts(d.parts));
    Length x = row.at.x;
    for (const std::string& s : d.parts) {
      const Length width = framed_width(c, style, s);
      draw_framed(c, *row.block, style, s,
                  {x, row.at.y + base_in_set(plan.ruling)}, width, element);
      x += width + kFrameGap;
    }
    draw_row_line(c, row, plan, i, d.word->reading.word, first_part(d));
  }
}

}  // namespace sheaf::word_parts_sheet
