#include "sheets/word_parts_rows.h"

#include "layout/heard.h"
#include "sheets/common_options.h"

namespace sheaf::word_parts_sheet {

using namespace literals;

namespace {
constexpr Length kBetweenItems = 6_mm;
constexpr Length kFramePad = 2.5_mm;  // beside text in a frame
}  // namespace

Plan plan_rows(const SheetInput& in, const Composer& c, const TextStyle& text,
               Length printed, Length by_hand) {
  Plan plan;
  plan.ruling = ruling_of(in, c.style());
  plan.text = text;
  plan.line_left = printed + kGap;
  plan.below = c.width() - plan.line_left < scaled(by_hand, 1.1);
  return plan;
}

void draw_writing_line(Composer& c, Block& block, const Plan& plan,
                       ElementId parent, Point at, Length right) {
  const ElementId line = add_writing_lines(c, parent);
  const Length left = plan.below ? at.x : at.x + plan.line_left;
  const Length top = plan.below ? at.y + set_pitch(plan.ruling) : at.y;
  draw_set(block, c.style(), plan.ruling, {left, top}, right - left, line);
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

}  // namespace

void add_parted(const SheetInput& in, Composer& c,
                const std::vector<PartedWord>& words,
                std::string_view heading) {
  if (words.empty()) return;
  const TextStyle style = fitted_words(
      c, [&](const TextStyle& s) { return parts_width(c, s, words); },
      c.width());
  Length hand;
  for (const PartedWord& d : words) hand = std::max(hand, by_hand(in, *d.word));
  const Plan plan = plan_rows(in, c, style, parts_width(c, style, words), hand);
  add_heading(c, heading);
  const ElementId list = c.add(Role::list);
  for (const PartedWord& d : words) {
    Block& block =
        add_item_block(c, plan.height(), d.word == words.front().word);
    const From from(c, d.word->spelling.span);
    const ElementId body = add_list_body(c, list);
    const ElementId element = add_heard(c, body, heard_parts(d.parts));
    Length x;
    for (const std::string& s : d.parts) {
      const Length width = framed_width(c, style, s);
      draw_framed(c, block, style, s, {x, base_in_set(plan.ruling)}, width,
                  element);
      x += width + kFrameGap;
    }
    draw_writing_line(c, block, plan, body, {}, c.width());
  }
}

}  // namespace sheaf::word_parts_sheet
