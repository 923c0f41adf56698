#include "layout/reading_foot.h"

#include <algorithm>

#include "layout/heard.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kRing = 5.5_mm;
constexpr Length kRingPitch = 9_mm;
constexpr Length kBeforeFoot = 5_mm;
constexpr Length kBeforeLines = 1_mm;

TextStyle rings_style(const Composer& c) {
  return c.style().text(c.style().reading_size);
}

// What stands above the lines, with its blanks.
Length lines_head(const Composer& c) {
  const TextStyle bold = c.style().text(c.style().text_size, true);
  return kBeforeFoot + bold.line_height() + kBeforeLines;
}

}  // namespace

Length reading_rings_height(const Composer& composer, int readings) {
  if (readings < 1) return {};
  return kBeforeFoot + rings_style(composer).line_height();
}

void add_reading_rings(Composer& composer, int readings, Length indent) {
  if (readings < 1) return;
  const TextStyle style = rings_style(composer);
  Block& block = composer.block(style.line_height(), kBeforeFoot);
  const Length base = baseline_in_line(style);
  const ElementId element = composer.add(Role::paragraph);
  Length x = indent;
  x += draw_text(composer, block, style, "I read it again. ", {x, base},
                 element);
  const Length middle =
      base - at_size(*style.font, style.size, style.font->x_height()) / 2;
  const ElementId ticks = add_tick_boxes(composer, element, readings);
  for (int i = 0; i < readings; ++i) {
    block.ring({x + 2_mm + kRing / 2 + kRingPitch * i, middle}, kRing,
               composer.style().box_weight, ticks);
  }
}

Length lines_height(const Composer& composer, int count) {
  if (count < 1) return {};
  const Ruling& ruling = composer.style().ruling;
  return lines_head(composer) + set_pitch(ruling) * count - ruling.gap;
}

void add_lines_as_room(Composer& composer, std::string_view heading, int most) {
  const Ruling& ruling = composer.style().ruling;
  const Length left = composer.body().height -
                      height_on_last_page(composer.blocks()) -
                      lines_head(composer);
  const auto fitting =
      static_cast<int>((left + ruling.gap) / set_pitch(ruling));
  const int lines = std::min(most, fitting);
  if (lines < 1) return;
  add_subheading(composer, composer.style().text_size, heading, kBeforeFoot);
  add_sets(composer, ruling, lines, kBeforeLines);
}

}  // namespace sheaf
