#include "layout/model_frame.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "layout/heard.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kModelSide = 3.5_mm;
constexpr Length kModelCorner = 3_mm;     // radius
constexpr Length kModelHeadLeft = 12_mm;  // from the box's edge to its head
constexpr Length kBesideHead = 1.5_mm;    // where the upper edge stops

TextStyle model_head_style(const Style& style) {
  return style.text(style.text_size, true);
}

Length tall_letters(const TextStyle& text) {
  return at_size(*text.font, text.size, text.font->cap_height());
}

// The edge from the right of the head all around to its left.
Path edge_around(const Rect& box, Length head_left, Length head_right) {
  // A quarter of a circle as one curve: the usual share of the radius.
  const Length pull = scaled(kModelCorner, 0.45);
  const Length left = box.x, right = box.right();
  const Length top = box.y, bottom = box.bottom();
  const Length in = kModelCorner;
  using Kind = PathStep::Kind;
  return {
      {Kind::move, {head_right, top}},
      {Kind::line, {right - in, top}},
      {Kind::curve,
       {right, top + in},
       {right - pull, top},
       {right, top + pull}},
      {Kind::line, {right, bottom - in}},
      {Kind::curve,
       {right - in, bottom},
       {right, bottom - pull},
       {right - pull, bottom}},
      {Kind::line, {left + in, bottom}},
      {Kind::curve,
       {left, bottom - in},
       {left + pull, bottom},
       {left, bottom - pull}},
      {Kind::line, {left, top + in}},
      {Kind::curve, {left + in, top}, {left, top + pull}, {left + pull, top}},
      {Kind::line, {head_left, top}},
  };
}

std::vector<TextLine> model_lines(Composer& composer,
                                  std::span<const TextPiece> pieces) {
  const Length room = composer.width() - 2 * model_room(composer.style()).side;
  return break_lines(composer, pieces, room);
}

Length line_height_of(std::span<const TextPiece> pieces) {
  Length height;
  for (const TextPiece& piece : pieces) {
    height = std::max(height, piece.style.line_height());
  }
  return height;
}

}  // namespace

ModelRoom model_room(const Style& style) {
  return {.above = tall_letters(model_head_style(style)) + 1.5_mm,
          .side = kModelSide,
          .below = 3_mm};
}

Rect model_box(const Composer& composer, Length height) {
  return {0_mm, 0_mm, composer.width(), height};
}

Length model_head_right(Composer& composer) {
  const TextStyle head = model_head_style(composer.style());
  return kModelHeadLeft + width_of(composer.shape(head, kModelHead)) +
         kBesideHead;
}

void draw_model_frame(Composer& composer, Block& block, const Rect& box,
                      ElementId parent) {
  const Style& style = composer.style();
  const TextStyle head = model_head_style(style);
  const Length tall = tall_letters(head);
  // In the middle of a narrow box.
  const Length own = width_of(composer.shape(head, kModelHead));
  const Length left = box.x + std::min(kModelHeadLeft, (box.width - own) / 2);
  const ElementId said = add_heard(composer, parent, std::string(kModelHead));
  // What follows is another word, also to who reads without the tags.
  draw_text(composer, block, head, fmt::format("{} ", kModelHead),
            {left, box.y + tall}, said);
  const Rect edge{box.x, box.y + tall / 2, box.width, box.height - tall / 2};
  block.marks.push_back(PathMark{
      .path = edge_around(edge, left - kBesideHead, left + own + kBesideHead),
      .stroke = {.width = style.box_weight * 3 / 2},
      .element = said});
}

Length model_text_height(Composer& composer,
                         std::span<const TextPiece> pieces) {
  const auto lines =
      static_cast<std::int64_t>(model_lines(composer, pieces).size());
  return model_room(composer.style()).height() + line_height_of(pieces) * lines;
}

ElementId add_model_text(Composer& composer, std::span<const TextPiece> pieces,
                         Length space_before) {
  auto lines = model_lines(composer, pieces);
  say_marked(pieces, lines);
  const ModelRoom room = model_room(composer.style());
  const ElementId text = composer.add(Role::paragraph);
  Block& block =
      composer.block(model_text_height(composer, pieces), space_before);
  draw_model_frame(composer, block, model_box(composer, block.height), text);
  Length y = room.above;
  if (!pieces.empty()) y += baseline_in_line(pieces.front().style);
  for (const TextLine& line : lines) {
    draw_line(composer, block, line, {kModelSide, y}, text);
    y += line_height_of(pieces);
  }
  return text;
}

}  // namespace sheaf
