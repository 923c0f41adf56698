#include "layout/numbered_steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <functional>

#include "layout/heard.h"

namespace sheaf {

namespace {

using namespace literals;

// A list item with a text, and something drawn at the left of its first line.
void add_step(Composer& c, std::span<const TextPiece> text,
              const std::string& heard, Length indent, Length space_before,
              ElementId list,
              const std::function<void(Block&, ElementId)>& draw_label) {
  const ElementId item = c.add(Role::list_item, list);
  const ElementId label = c.add(Role::list_label, item);
  const std::size_t first = c.blocks().size();
  add_paragraph(c, text,
                {.role = Role::list_body,
                 .parent = item,
                 .indent = indent,
                 .space_before = space_before,
                 .heard = heard});
  if (first == c.blocks().size()) return;
  // Not every reader heeds tags: the label is drawn before the text, too.
  Block& line = c.blocks()[first];
  const auto drawn = static_cast<std::ptrdiff_t>(line.marks.size());
  draw_label(line, label);
  std::rotate(line.marks.begin(), line.marks.begin() + drawn, line.marks.end());
}

}  // namespace

Length step_indent(const TextStyle& style) { return scaled(style.size, 1.8); }

void add_numbered_texts(Composer& composer, const TextStyle& style,
                        std::span<const std::vector<TextPiece>> steps) {
  const Length indent = step_indent(style);
  const ElementId list = composer.add(Role::list);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    add_step(composer, steps[i], {}, indent, {}, list,
             [&](Block& block, ElementId label) {
               draw_text(composer, block, style, fmt::format("{}.", i + 1),
                         {0_mm, baseline_in_line(style)}, label);
             });
  }
}

void add_numbered_steps(Composer& composer, const TextStyle& style,
                        std::span<const std::string> steps) {
  std::vector<std::vector<TextPiece>> texts;
  for (const std::string& step : steps) texts.push_back({{step, style}});
  add_numbered_texts(composer, style, texts);
}

void add_labelled_texts(Composer& composer, const TextStyle& style,
                        const TextStyle& label_style,
                        std::span<const LabelledText> texts,
                        std::string_view widest_label) {
  const Length indent = width_of(composer.shape(label_style, widest_label)) +
                        scaled(style.size, 0.8);
  const ElementId list = composer.add(Role::list);
  for (const LabelledText& item : texts) {
    const TextPiece text{item.text, style};
    add_step(composer, std::span(&text, 1), {}, indent, {}, list,
             [&](Block& block, ElementId label) {
               draw_text(composer, block, label_style, item.label,
                         {0_mm, baseline_in_line(style)}, label);
             });
  }
}

Length tick_side(const TextStyle& style) { return style.size; }

void draw_tick_box(Block& block, const Style& style, const TextStyle& text,
                   Point baseline_left, ElementId element) {
  const Length side = tick_side(text);
  const Length middle =
      baseline_left.y -
      at_size(*text.font, text.size, text.font->x_height()) / 2;
  block.frame({baseline_left.x, middle - side / 2, side, side},
              {.width = style.box_weight}, element);
}

void add_tick_steps(Composer& composer, const TextStyle& style,
                    std::span<const TickStep> steps, Length space_between) {
  const Length indent = tick_side(style) + scaled(style.size, 0.7);
  const ElementId list = composer.add(Role::list);
  bool first = true;
  for (const TickStep& step : steps) {
    const TextPiece text{step.text, style};
    add_step(composer, std::span(&text, 1), step.heard, indent,
             first ? Length() : space_between, list,
             [&](Block& block, ElementId label) {
               draw_tick_box(block, composer.style(), style,
                             {0_mm, baseline_in_line(style)},
                             add_tick_boxes(composer, label));
             });
    first = false;
  }
}

}  // namespace sheaf
