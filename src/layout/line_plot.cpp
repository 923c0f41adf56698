#include "layout/line_plot.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/strokes.h"
#include "layout/text_block.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kBetweenPlots = 3.5_mm;
constexpr Length kPlotLabelGap = 2_mm;
constexpr Length kPlotEnds = 3_mm;  // between the frame and the first point
constexpr Length kAboveTicks = 2.2_mm;
constexpr Length kBetweenTicks = 2.5_mm;
constexpr Length kPlotDot = 2.4_mm;

// Where values and days stand in the block.
struct PlotAxes {
  Rect room;
  int most_x = 1;
  int least = 0, most = 100;

  Length x(int at) const {
    return room.x + kPlotEnds +
           (room.width - 2 * kPlotEnds) * at / std::max(most_x, 1);
  }
  Length y(double value) const {
    const double whole = std::max(most - least, 1);
    const double part =
        (std::clamp<double>(value, least, most) - least) / whole;
    return room.bottom() - scaled(room.height, part);
  }
};

void draw_to_left(Composer& c, Block& block, const TextStyle& style,
                  std::string_view text, Point baseline, ElementId element) {
  const GlyphRun run = c.shape(style, text);
  block.glyphs(run, {baseline.x - width_of(run), baseline.y}, element);
}

Stroke stroke_of(const Style& style, LinePlot::Line::Dash dash) {
  if (dash == LinePlot::Line::Dash::dashes) {
    return {.width = style.box_weight, .dash = {4_mm, 1.5_mm}};
  }
  return {.width = style.box_weight, .dash = {1.2_mm, 1.2_mm}};
}

class PlotDrawing {
 public:
  PlotDrawing(Composer& c, Block& block, ElementId figure)
      : c_(c),
        block_(block),
        figure_(figure),
        text_(c.style().teacher_text()) {}

  void draw(const LinePlot& plot, const PlotAxes& axes, Length top) {
    draw_text(c_, block_, text_, plot.value_label,
              {Length(), top + baseline_in_line(text_)}, figure_);
    draw_frame_lines(plot, axes);
    for (const LinePlot::Line& line : plot.lines) {
      block_.line({axes.x(line.from.x), axes.y(line.from.value)},
                  {axes.x(line.to.x), axes.y(line.to.value)},
                  stroke_of(c_.style(), line.dash), figure_);
    }
    draw_labels(plot, axes);
    for (std::size_t i = 0; i < plot.points.size(); ++i) {
      const Point at{axes.x(plot.points[i].x), axes.y(plot.points[i].value)};
      if (i > 0) {
        block_.line(
            {axes.x(plot.points[i - 1].x), axes.y(plot.points[i - 1].value)},
            at, {.width = c_.style().box_weight, .round_ends = true}, figure_);
      }
      block_.dot(at, kPlotDot, figure_);
    }
  }

  // Every one, or every second, third and so on, so that all have room.
  void draw_ticks(const PlotAxes& axes, std::span<const PlotTick> ticks) {
    std::size_t every = 1;
    while (every < ticks.size() && !have_room(axes, ticks, every)) ++every;
    Length free;
    for (std::size_t i = 0; i < ticks.size(); i += every) {
      free = draw_tick(axes, ticks[i]);
    }
    // The last has a name of its own if it has room: a goal.
    if (!ticks.empty() && left_of(axes, ticks.back()) >= free) {
      draw_tick(axes, ticks.back());
    }
  }

 private:
  Length left_of(const PlotAxes& axes, const PlotTick& tick) const {
    return axes.x(tick.x) - width_of(c_.shape(text_, tick.label)) / 2;
  }
  bool have_room(const PlotAxes& axes, std::span<const PlotTick> ticks,
                 std::size_t every) const {
    for (std::size_t i = every; i < ticks.size(); i += every) {
      const PlotTick& before = ticks[i - every];
      const Length end = left_of(axes, before) +
                         width_of(c_.shape(text_, before.label)) +
                         kBetweenTicks;
      if (left_of(axes, ticks[i]) < end) return false;
    }
    return true;
  }
  // Where the next label may begin.
  Length draw_tick(const PlotAxes& axes, const PlotTick& tick) {
    const GlyphRun run = c_.shape(text_, tick.label);
    const Length left = left_of(axes, tick);
    block_.glyphs(
        run, {left, axes.room.bottom() + kAboveTicks + baseline_in_line(text_)},
        figure_);
    block_.line({axes.x(tick.x), axes.room.bottom()},
                {axes.x(tick.x), axes.room.bottom() + 1.2_mm},
                thin_stroke(c_.style()), figure_);
    return left + width_of(run) + kBetweenTicks;
  }

  void draw_frame_lines(const LinePlot& plot, const PlotAxes& axes) {
    const Length down = scaled(text_.size, 0.35);
    for (int value = plot.least; value <= plot.most; value += plot.tick) {
      const Length y = axes.y(value);
      const bool base = value == plot.least;
      block_.line({axes.room.x, y}, {axes.room.right(), y},
                  base ? thin_stroke(c_.style()) : dotted_stroke(c_.style()),
                  figure_);
      draw_to_left(c_, block_, text_, fmt::format("{}", value),
                   {axes.room.x - kPlotLabelGap, y + down}, figure_);
    }
    block_.line({axes.room.x, axes.room.y}, {axes.room.x, axes.room.bottom()},
                thin_stroke(c_.style()), figure_);
  }

  // Where a label behind the end of its line has its baseline: beside the end,
  // or above or below another line that passes there.
  Length clear_of_lines(const LinePlot& plot, const PlotAxes& axes,
                        const LinePlot::Line& own, Length wide) const {
    const Length end = axes.y(own.to.value);
    const Length wanted = end + scaled(text_.size, 0.35);
    const double steps =
        wide.mm() / std::max(axes.room.width.mm(), 1.0) * axes.most_x;
    for (const LinePlot::Line& other : plot.lines) {
      const int days = other.to.x - other.from.x;
      if (other.to.x <= own.to.x || days <= 0) continue;
      const double slope = (other.to.value - other.from.value) / days;
      const auto height_at = [&](double x) {
        return axes.y(other.from.value + slope * (x - other.from.x));
      };
      const Length near = height_at(own.to.x);
      const Length far = height_at(own.to.x + steps);
      const Length top = std::min(near, far), bottom = std::max(near, far);
      if (wanted < top - 1_mm || wanted - text_.size > bottom) continue;
      return end <= near ? top - 1.2_mm : bottom + text_.size;
    }
    return wanted;
  }

  // From the top down, each clear of the one above.
  void draw_labels(const LinePlot& plot, const PlotAxes& axes) {
    struct Label {
      Length x, y;
      std::string_view text;
    };
    std::vector<Label> labels;
    const Length down = scaled(text_.size, 0.35);
    for (const LinePlot::Line& line : plot.lines) {
      const Length own = axes.x(line.to.x) + kPlotLabelGap;
      const Length wide = width_of(c_.shape(text_, line.label));
      const bool beside = own + wide > axes.room.right();
      labels.push_back({beside ? axes.room.right() + kPlotLabelGap : own,
                        beside ? axes.y(line.to.value) + down
                               : clear_of_lines(plot, axes, line, wide),
                        line.label});
    }
    std::ranges::stable_sort(labels, {}, &Label::y);
    for (std::size_t i = 1; i < labels.size(); ++i) {
      if (labels[i].x != labels[i - 1].x) continue;
      labels[i].y =
          std::max(labels[i].y, labels[i - 1].y + scaled(text_.size, 1.1));
    }
    for (const Label& label : labels) {
      draw_text(c_, block_, text_, label.text, {label.x, label.y}, figure_);
    }
  }

  Composer& c_;
  Block& block_;
  ElementId figure_;
  TextStyle text_;
};

}  // namespace

void add_line_plots(Composer& c, std::span<const LinePlot> plots, int most_x,
                    std::span<const PlotTick> ticks, Length height,
                    std::string alternative) {
  const ElementId figure =
      c.add(Role::figure, c.section(), std::move(alternative));
  const TextStyle text = c.style().teacher_text();
  const Length line = text.line_height();
  Length left, right;
  int shares = 0;
  for (const LinePlot& plot : plots) {
    shares += plot.share;
    left =
        std::max(left, width_of(c.shape(text, fmt::format("{}", plot.most))) +
                           kPlotLabelGap);
    right = std::max(right,
                     widest_text(c, text, plot.lines, &LinePlot::Line::label));
  }
  if (right > Length()) right += kPlotLabelGap;
  // The last label under the plots may stand out to the right.
  right = std::max(right, 8_mm);
  const auto count = static_cast<std::int64_t>(plots.size());
  const Length foot = line + kAboveTicks;
  const Length rooms =
      height - foot - (line + 1.5_mm) * count - kBetweenPlots * (count - 1);
  Block& block = c.block(height, 2_mm);
  PlotDrawing drawing(c, block, figure);
  Length top;
  PlotAxes axes;
  for (const LinePlot& plot : plots) {
    const Length own = rooms * plot.share / std::max(shares, 1);
    axes = {{left, top + line + 1.5_mm, c.width() - left - right, own},
            most_x,
            plot.least,
            plot.most};
    drawing.draw(plot, axes, top);
    top = axes.room.bottom() + kBetweenPlots;
  }
  drawing.draw_ticks(axes, ticks);
}

}  // namespace sheaf
