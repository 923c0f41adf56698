#include "reports/growth_plot.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "layout/line_plot.h"
#include "layout/text_block.h"
#include "reports/report_document.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kLeastPlot = 65_mm;
constexpr Length kTallestPlot = 95_mm;
constexpr int kMostNumbers = 5;  // beside the axis, above the lowest

// Between the numbers of words: such that the last is all of them, if one can
// be.
int word_tick(int words) {
  for (const int tick : {5, 4, 3, 6, 10}) {
    if (words % tick == 0 && words / tick < kMostNumbers) return tick;
  }
  return words <= 20 ? 5 : 10;
}

int up_to(int value, int tick) { return (value + tick - 1) / tick * tick; }

LinePlot pairs_plot(const Growth& growth) {
  LinePlot plot;
  plot.value_label =
      fmt::format("Letter pairs right, of {}", growth.sequences());
  int lowest = growth.sequences();
  for (const SequencePoint& point : growth.points) {
    plot.points.push_back(
        {growth.day(point.date), static_cast<double>(point.sequences.correct)});
    lowest = std::min(lowest, point.sequences.correct);
  }
  // Not from nought where that would press all points into one corner; the
  // numbers at the side say so, as many as have room.
  for (const int tick : {10, 20, 50, 100}) {
    plot.tick = tick;
    plot.least = std::max(0, lowest / tick * tick - tick);
    plot.most = up_to(growth.sequences(), tick);
    if (plot.most - plot.least <= kMostNumbers * tick) break;
  }
  plot.share = 3;
  if (growth.goal) {
    plot.lines.push_back(
        {{growth.day(growth.goal->from), growth.goal->at(growth.goal->from)},
         {growth.day(growth.goal->until), growth.goal->at(growth.goal->until)},
         LinePlot::Line::Dash::dashes,
         fmt::format("goal {}", growth.goal->goal)});
  }
  if (growth.trend) {
    const int last = growth.day(growth.points.back().date);
    plot.lines.push_back({{0, growth.trend->after(0)},
                          {last, growth.trend->after(last)},
                          LinePlot::Line::Dash::dots,
                          "trend"});
  }
  return plot;
}

LinePlot words_plot(const Growth& growth) {
  LinePlot plot;
  plot.value_label = fmt::format("Words right, of {}", growth.words());
  plot.tick = word_tick(growth.words());
  plot.most = up_to(growth.words(), plot.tick);
  plot.least = 0;
  for (const SequencePoint& point : growth.points) {
    plot.points.push_back(
        {growth.day(point.date), static_cast<double>(point.words.right)});
  }
  plot.share = 2;
  return plot;
}

std::vector<PlotTick> ticks_of(const Growth& growth) {
  std::vector<PlotTick> ticks;
  for (const SequencePoint& point : growth.points) {
    ticks.push_back({growth.day(point.date), short_date(point.date)});
  }
  if (growth.goal && growth.goal->until > growth.points.back().date) {
    ticks.push_back(
        {growth.day(growth.goal->until), short_date(growth.goal->until)});
  }
  return ticks;
}

int last_day_of(const Growth& growth) {
  int last = growth.day(growth.points.back().date);
  if (growth.goal) last = std::max(last, growth.day(growth.goal->until));
  return last;
}

// All values in words, for whoever does not see the plot.
std::string in_words(const Growth& growth, bool pairs) {
  std::string text =
      pairs ? fmt::format(
                  "Plot of {} probes: letter pairs right "
                  "of {}, and words right of {}",
                  growth.points.size(), growth.sequences(), growth.words())
            : fmt::format("Plot of words right of {}", growth.words());
  for (const SequencePoint& point : growth.points) {
    text +=
        pairs ? fmt::format("; {}: {} pairs, {} words", short_date(point.date),
                            point.sequences.correct, point.words.right)
              : fmt::format("; {}: {}", short_date(point.date),
                            point.words.right);
  }
  if (pairs && growth.goal) {
    text +=
        fmt::format("; goal line from {} to {} on {}", growth.goal->baseline,
                    growth.goal->goal, short_date(growth.goal->until));
  }
  return text + ".";
}

// What stands below the plot: what to do, the trend, and what these rest on.
std::string meaning_text(const Growth& growth) {
  std::string text = decision_text(growth) + " " + trend_text(growth);
  if (growth.trend) {
    text.pop_back();
    text += " (Theil 1950, Sen 1968).";
  }
  if (growth.left_out > 0) {
    text += fmt::format(" Left out: {} of another length, or not whole.",
                        growth.left_out);
  }
  if (growth.goal) {
    text += fmt::format(
        " Goal line: from {}, the middle one of the first three probes; the "
        "four-point rule of curriculum-based measurement (Stecker, Fuchs & "
        "Fuchs 2005).",
        growth.goal->baseline);
  }
  return text;
}

}  // namespace

void add_growth(Composer& c, const Growth& growth) {
  add_report_heading(c, growth.points.empty()
                            ? "Growth"
                            : "Growth: short lists that are alike (probes)");
  TextStyle text = c.style().teacher_text();
  text.leading = 1.2;
  const std::string meaning = meaning_text(growth);
  if (growth.points.empty()) {
    add_paragraph(c, text, meaning, {.whole = true});
    return;
  }
  const auto lines = static_cast<std::int64_t>(
      break_lines(c, text, meaning, c.width()).size());
  const Length below = text.line_height() * lines + 4_mm;
  const Length height =
      std::clamp(room_left(c) - below, kLeastPlot, kTallestPlot);
  const LinePlot plots[] = {pairs_plot(growth), words_plot(growth)};
  add_line_plots(c, plots, last_day_of(growth), ticks_of(growth), height,
                 in_words(growth, true));
  c.blocks().back().keep_with_next = true;
  add_paragraph(c, text, meaning, {.space_before = 1_mm, .whole = true});
}

void add_growth_picture(Composer& c, const Growth& growth, Length height) {
  Growth plain = growth;
  plain.goal.reset();
  plain.trend.reset();
  const LinePlot plots[] = {words_plot(plain)};
  add_line_plots(c, plots, last_day_of(plain), ticks_of(plain), height,
                 in_words(plain, false));
}

}  // namespace sheaf
