#include "layout/line_plot.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/strokes.h"

#include "layout/text_block.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kLeft = 14_mm;
constexpr Length kRight = 26_mm;  // labels at the ends of lines
constexpr Length kTop = 7_mm;
constexpr Length kBottom = 11_mm;
constexpr Length kLowPlot = 20_mm;  // has room for few numbers

// Where values and steps stand in the block.
struct Axes {
  Rect room;
  int steps;

  Length x(int step) const {
    return room.x +
           room.width * (2 * step + 1) / (std::int64_t{2} * std::max(steps, 1));
  }
  Length y(int value) const {
    return room.bottom() - room.height * std::clamp(value, 0, 100) / 100;
  }
};

TextStyle small_text(const Composer& c) {
  TextStyle style = c.style().teacher_text();
  style.size = scaled(style.size, 0.85);
  return style;
}

void draw_right(Composer& c, Block& block, const TextStyle& style,
                std::string_view text, Point baseline, ElementId element) {
  const GlyphRun run = c.shape(style, text);
  block.glyphs(run, {baseline.x - width_of(run), baseline.y}, element);
}

void draw_axes(Composer& c, Block& block, const Axes& axes,
               const LinePlot& plot, ElementId figure) {
  const TextStyle small = small_text(c);
  const Length down = scaled(small.size, 0.35);
  const int tick = axes.room.height < kLowPlot ? 50 : 20;
  for (int value = 0; value <= 100; value += tick) {
    const Length y = axes.y(value);
    const bool base = value == 0;
    block.line({axes.room.x, y}, {axes.room.right(), y},
               base ? thin_stroke(c.style()) : dotted_stroke(c.style()),
               figure);
    draw_right(c, block, small, fmt::format("{}", value),
               {axes.room.x - 2_mm, y + down}, figure);
  }
  block.line({axes.room.x, axes.room.y}, {axes.room.x, axes.room.bottom()},
             {.width = c.style().guide_weight}, figure);
  // Numbers under the steps, as many as have room.
  const Length step = axes.room.width / std::max(axes.steps, 1);
  const int every = step >= 6_mm ? 1 : step >= 3_mm ? 2 : 5;
  for (int i = 0; i < axes.steps; ++i) {
    if ((i + 1) % every != 0 && i != 0) continue;
    draw_centred(c, block, small, fmt::format("{}", i + 1),
                 {axes.x(i), axes.room.bottom() + 4.5_mm}, figure);
  }
  draw_text(c, block, small, plot.value_label, {Length(), 3.5_mm}, figure);
  draw_right(c, block, small, plot.step_label,
             {axes.room.right(), axes.room.bottom() + 9_mm}, figure);
}

// Labels that would touch are moved apart, the higher line's up.
Length clear_of(Length wanted, std::optional<Length> other, Length height) {
  if (!other) return wanted;
  const Length apart = wanted - *other;
  if (apart >= height || apart <= -height) return wanted;
  return apart > Length() ? *other + height : *other - height;
}

}  // namespace

void add_line_plot(Composer& c, const LinePlot& plot, Length height,
                   std::string alternative) {
  const ElementId figure =
      c.add(Role::figure, c.section(), std::move(alternative));
  Block& block = c.block(height, 3_mm);
  const Axes axes{
      {kLeft, kTop, c.width() - kLeft - kRight, height - kTop - kBottom},
      plot.steps};
  draw_axes(c, block, axes, plot, figure);
  const TextStyle small = small_text(c);
  const Length label = axes.room.right() + 2_mm;
  const Length down = scaled(small.size, 0.35);
  std::optional<Length> taken;
  if (plot.level) {
    const Length y = axes.y(*plot.level);
    block.line({axes.room.x, y}, {axes.room.right(), y},
               {.width = c.style().box_weight, .dash = {1.2_mm, 1.2_mm}},
               figure);
    taken = y + down;
    draw_text(c, block, small, plot.level_label, {label, *taken}, figure);
  }
  if (plot.aim) {
    const auto& from = plot.aim->first;
    const auto& to = plot.aim->second;
    block.line({axes.x(from.step), axes.y(from.value)},
               {axes.x(to.step), axes.y(to.value)},
               {.width = c.style().box_weight, .dash = {4_mm, 1.5_mm}}, figure);
    const Length y =
        clear_of(axes.y(to.value) + down, taken, small.line_height());
    draw_text(c, block, small, plot.aim_label, {label, y}, figure);
  }
  for (std::size_t i = 0; i < plot.points.size(); ++i) {
    const Point at{axes.x(plot.points[i].step), axes.y(plot.points[i].value)};
    if (i > 0) {
      block.line(
          {axes.x(plot.points[i - 1].step), axes.y(plot.points[i - 1].value)},
          at, {.width = c.style().box_weight * 3 / 2, .round_ends = true},
          figure);
    }
    block.dot(at, 2.2_mm, figure);
  }
}

}  // namespace sheaf
