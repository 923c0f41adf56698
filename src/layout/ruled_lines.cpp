#include "layout/ruled_lines.h"

#include <algorithm>

#include "base/utf8.h"
#include "layout/heard.h"
#include "layout/strokes.h"

namespace sheaf {

Length set_height(const Ruling& ruling) { return 3 * ruling.x_height; }
Length base_in_set(const Ruling& ruling) { return 2 * ruling.x_height; }
Length set_pitch(const Ruling& ruling) {
  return set_height(ruling) + ruling.gap;
}

void draw_set(Block& block, const Style& style, const Ruling& ruling, Point at,
              Length width, ElementId element) {
  const Length x_height = ruling.x_height;
  const auto line = [&](int step, const Stroke& stroke) {
    const Length y = at.y + step * x_height;
    block.line({at.x, y}, {at.x + width, y}, stroke, element);
  };
  const Stroke base{.width = style.box_weight};
  if (ruling.style == LineStyle::four_line) line(0, dotted_stroke(style));
  if (ruling.style != LineStyle::base_only) line(1, middle_stroke(style));
  line(2, base);
  if (ruling.style == LineStyle::four_line) line(3, dotted_stroke(style));
}

void add_sets(Composer& composer, const Ruling& ruling, int count,
              Length space_before, ElementId parent) {
  if (count < 1) return;
  const ElementId lines = add_writing_lines(composer, parent, count);
  for (int i = 0; i < count; ++i) {
    Block& block =
        composer.block(set_height(ruling), i == 0 ? space_before : ruling.gap);
    draw_set(block, composer.style(), ruling, {}, composer.width(), lines);
  }
}

namespace {

double letter_width(std::string_view character) {
  constexpr double kNarrow = 0.5, kUsual = 0.95, kWide = 1.4, kSpace = 1.4;
  constexpr double kMark = 0.35;
  const char c = character.front();
  if (c == ' ') return kSpace;
  if (std::string_view("ijlt").find(c) != std::string_view::npos) {
    return kNarrow;
  }
  if (std::string_view("mwMW").find(c) != std::string_view::npos) {
    return kWide;
  }
  if (std::string_view(".,!?'’;:").find(character) != std::string_view::npos) {
    return kMark;
  }
  if (c >= 'A' && c <= 'Z') return 1.2;
  return kUsual;
}

}  // namespace

Length hand_width(std::string_view text, Length x_height) {
  double widths = 0;
  for (const std::string_view c : characters(text)) widths += letter_width(c);
  return scaled(x_height, widths);
}

int hand_lines(std::string_view text, Length x_height, Length width) {
  const Length space = hand_width(" ", x_height);
  int lines = 1;
  Length x;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const Length word = hand_width(text.substr(0, end), x_height);
    if (x > Length() && x + word > width) {
      ++lines;
      x = Length();
    }
    x += word + space;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

}  // namespace sheaf
