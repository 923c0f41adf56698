#include "reports/progress_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "layout/line_plot.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "marking/calendar.h"
#include "marking/goal_line.h"
#include "marking/likely_range.h"
#include "marking/score_words.h"
#include "reports/progress_states.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kLeastPlot = 28_mm;
constexpr Length kTallestPlot = 50_mm;
constexpr Length kUnderPlot = 13_mm;  // what is said below it
constexpr int kMostWeeks = 40;
constexpr int kGridWeeks = 12;
constexpr Ink kSome = 222;  // 50 to 79 percent
constexpr Ink kFew = 176;   // fewer than half

Date first_day(const LearnerProgress& learner) {
  Date first{9999, 12, 31};
  for (const SequencePoint& p : learner.sequences) {
    first = std::min(first, p.date);
  }
  for (const PatternProgress& pattern : learner.patterns) {
    for (const ProgressPoint& p : pattern.points)
      first = std::min(first, p.date);
  }
  return first;
}

Date last_day(const LearnerProgress& learner) {
  Date last;
  for (const SequencePoint& p : learner.sequences)
    last = std::max(last, p.date);
  for (const PatternProgress& pattern : learner.patterns) {
    last = std::max(last, pattern.last);
  }
  return last;
}

// Where counts of some weeks stand: at most the last `most`.
struct Weeks {
  Date first;
  int from = 0;
  int count = 0;

  explicit Weeks(const LearnerProgress& learner, int most = kMostWeeks)
      : first(first_day(learner)) {
    const Date last = last_day(learner);
    const int all = last < first ? 0 : days_between(first, last) / 7 + 1;
    from = std::max(0, all - most);
    count = all - from;
  }
  int of(const Date& date) const {
    return days_between(first, date) / 7 - from;
  }
};

GridCell share_cell(const Share& share, std::string below = {}) {
  GridCell cell;
  cell.heard = "not asked";
  if (share.of == 0) return cell;
  cell.heard = fmt::format("{} of {}", share.right, share.of);
  cell.figure = fmt::format("{}/{}", share.right, share.of);
  cell.below = std::move(below);
  cell.few = share.of < Share::kLeastForPercent;
  if (!cell.few && !share.reaches(50)) {
    cell.ground = kFew;
    cell.heavy_frame = true;
  }
  if (!cell.few && share.reaches(50) && !share.reaches(80)) cell.ground = kSome;
  return cell;
}

// The counts that the state rests on, the state, and how sure they are.
GridCell state_cell(const PatternProgress& p) {
  GridCell cell = share_cell(p.window, std::string(state_name(p.state)));
  cell.figure += ", " + likely_short(p.window);
  cell.heard += ", " + likely_text(p.window);
  return cell;
}

void add_legend(Composer& c) {
  add_paragraph(
      c, c.style().teacher_text(),
      "Right out of all. No frame: 80% or more; thin frame: 50 to 79%; heavy: "
      "under half; dashed: fewer than five, so no percentage.",
      {.space_before = 2_mm});
}

std::vector<LetterSequences> sequences_by_week(const LearnerProgress& learner,
                                               const Weeks& weeks) {
  std::vector<LetterSequences> sums(static_cast<std::size_t>(weeks.count));
  for (const SequencePoint& p : learner.sequences) {
    const int week = weeks.of(p.date);
    if (week >= 0) sums[static_cast<std::size_t>(week)] += p.sequences;
  }
  return sums;
}

int per_hundred(const LetterSequences& s) {
  return (200 * s.correct + s.possible) / (2 * s.possible);
}

std::vector<std::string> week_numbers(const Weeks& weeks) {
  std::vector<std::string> numbers;
  for (int i = 0; i < weeks.count; ++i) {
    numbers.push_back(fmt::format("{}", weeks.from + i + 1));
  }
  return numbers;
}

// The counts of letter pairs, and what they are of each hundred.
void add_letter_rows(std::vector<GridRow>& rows, const LearnerProgress& learner,
                     const Weeks& weeks) {
  GridRow letters{.head = "Letter pairs"}, hundred{.head = "per hundred"};
  for (const LetterSequences& s : sequences_by_week(learner, weeks)) {
    GridCell cell{.heard = "none"}, of_hundred{.heard = "none"};
    if (s.possible > 0) {
      cell.figure = fmt::format("{}/{}", s.correct, s.possible);
      cell.heard = fmt::format("{} of {}", s.correct, s.possible);
      of_hundred.heard.clear();
      of_hundred.figure = fmt::format("{}", per_hundred(s));
    }
    letters.cells.push_back(std::move(cell));
    hundred.cells.push_back(std::move(of_hundred));
  }
  rows.push_back(std::move(letters));
  rows.push_back(std::move(hundred));
}

// The figures of the plot, of all weeks.
void add_letter_grid(Composer& c, const LearnerProgress& learner,
                     const Weeks& weeks) {
  std::vector<GridRow> rows;
  add_letter_rows(rows, learner, weeks);
  rows.erase(rows.begin());
  add_report_heading(c, "Letter pairs by week");
  add_grid(c, "Week", week_numbers(weeks), rows, 26_mm, 8_mm);
}

// One row of weeks, so that a learner's page stays one page. After more weeks
// it shows the last ones only, and no pattern that goes well and was not
// missed.
void add_week_grid(Composer& c, const LearnerProgress& learner,
                   const PatternCatalogue& catalogue) {
  const Weeks weeks(learner, kGridWeeks);
  const auto count = static_cast<std::size_t>(weeks.count);
  const bool all = weeks.from == 0;
  std::vector<GridRow> rows;
  for (const PatternProgress& p : learner.patterns) {
    std::vector<Share> sums(count);
    for (const ProgressPoint& point : p.points) {
      const int week = weeks.of(point.date);
      if (week >= 0) sums[static_cast<std::size_t>(week)] += point.share;
    }
    const bool missed = std::ranges::any_of(
        sums, [](const Share& s) { return s.right < s.of; });
    const bool goes_well =
        p.state == ProgressState::secure || p.state == ProgressState::go_on;
    if (!all && !missed && goes_well) continue;
    GridRow row{.head = column_title(catalogue[p.pattern])};
    for (const Share& share : sums) row.cells.push_back(share_cell(share));
    rows.push_back(std::move(row));
  }
  if (all) add_letter_rows(rows, learner, weeks);
  const std::string which =
      all ? ""
          : fmt::format("the last {} of {} weeks; ", weeks.count,
                        weeks.from + weeks.count);
  add_report_heading(c, fmt::format("Patterns by week ({}week 1 began {})",
                                    which, date_text(weeks.first)));
  if (!rows.empty()) {
    add_grid(c, "Pattern", week_numbers(weeks), rows, 26_mm, 11_mm);
    add_legend(c);
  }
  if (all) return;
  add_paragraph(
      c, c.style().teacher_text(),
      "Left out: patterns that go well and had no misses in these weeks.");
  add_letter_grid(c, learner, Weeks(learner));
}

// The plot takes what the page has left.
Length room_for_plot(Composer& c) {
  Length used;
  for (const Block& block : c.blocks()) {
    used += block.height + block.space_before;
  }
  return std::clamp(c.body().height - used - kUnderPlot, kLeastPlot,
                    kTallestPlot);
}

void add_plot(Composer& c, const LearnerProgress& learner, const Weeks& weeks,
              int rate) {
  LinePlot plot;
  plot.steps = weeks.count;
  std::vector<int> values;
  std::string figures;
  const auto sums = sequences_by_week(learner, weeks);
  for (std::size_t i = 0; i < sums.size(); ++i) {
    if (sums[i].possible == 0) continue;
    const int week = static_cast<int>(i);
    values.push_back(per_hundred(sums[i]));
    plot.points.push_back({week, values.back()});
    figures +=
        fmt::format("; week {}: {}", weeks.from + week + 1, values.back());
  }
  if (values.empty()) return;
  plot.step_label = "week";
  plot.value_label = "correct letter pairs per hundred";
  std::string alternative =
      "Line plot of correct letter pairs per hundred, by week" + figures;
  if (const auto baseline = baseline_of(values)) {
    const int first = plot.points.front().step;
    const int span = weeks.count - 1 - first;
    const GoalLine line{*baseline, rate, span};
    plot.level = *baseline;
    plot.level_label = fmt::format("baseline {}", *baseline);
    const int goal = std::min(100, line.goal());
    plot.aim = {{first, *baseline}, {weeks.count - 1, goal}};
    plot.aim_label = fmt::format("aim {}", goal);
    alternative +=
        fmt::format("; baseline {}, aim line to {}", *baseline, goal);
  }
  add_report_heading(c, "Letter pairs over the weeks");
  add_line_plot(c, plot, room_for_plot(c), alternative + ".");
  add_paragraph(
      c, c.style().teacher_text(),
      fmt::format(
          "Letter pairs: correct letter sequences, including the blanks at "
          "both ends of a word. Baseline: the middle one of the first three "
          "weeks. The aim line rises by {}.{:02} a week, as the teacher has "
          "set it. Words differ from week to week.",
          rate / 100, rate % 100),
      {.space_before = 1_mm});
}

// Who needs to come back to the same pattern.
void add_needs(Composer& c, std::span<const LearnerProgress> learners,
               const PatternCatalogue& catalogue) {
  std::map<PatternId, std::array<std::vector<LearnerCode>, 2>> needs;
  for (const LearnerProgress& learner : learners) {
    for (const PatternProgress& p : learner.patterns) {
      const bool slipped = p.state == ProgressState::check_again;
      if (!slipped && p.state != ProgressState::practising) continue;
      needs[p.pattern][slipped ? 0 : 1].push_back(learner.code);
    }
  }
  if (needs.empty()) return;
  add_report_heading(c, "Who needs the same pattern");
  Table table(c, {{"Pattern", 2},
                  {.title = "Check again", .share = 2, .none = "nobody"},
                  {.title = "Still practising", .share = 2, .none = "nobody"}});
  for (const auto& [pattern, codes] : needs) {
    table.add_text_row({std::string(catalogue[pattern].name),
                        codes_text(codes[0]), codes_text(codes[1])},
                       true);
  }
}

std::string last_of(std::span<const LearnerProgress> learners) {
  Date last;
  for (const LearnerProgress& learner : learners) {
    last = std::max(last, last_day(learner));
  }
  return date_text(last);
}

}  // namespace

void add_group_report(const ReportMaker& maker,
                      std::span<const LearnerProgress> learners,
                      const PatternCatalogue& catalogue,
                      const ProgressRules& rules) {
  std::vector<PatternId> patterns;
  for (const LearnerProgress& learner : learners) {
    for (const PatternProgress& p : learner.patterns) {
      if (std::ranges::find(patterns, p.pattern) == patterns.end()) {
        patterns.push_back(p.pattern);
      }
    }
  }
  std::vector<std::string> heads;
  for (const PatternId pattern : patterns) {
    heads.push_back(column_title(catalogue[pattern]));
  }
  std::vector<GridRow> rows;
  for (const LearnerProgress& learner : learners) {
    GridRow row{.head = learner.code.text()};
    for (const PatternId pattern : patterns) {
      const PatternProgress* p = learner.find(pattern);
      row.cells.push_back(p == nullptr ? GridCell{.heard = "not taught"}
                                       : state_cell(*p));
    }
    rows.push_back(std::move(row));
  }
  add_report(maker,
             {.heading = "The group",
              .code = last_of(learners),
              .bookmark = "Progress of the group"},
             [&](Composer& c) {
               add_grid(c, "Learner", heads, rows, 20_mm, 24_mm);
               add_legend(c);
               add_needs(c, learners, catalogue);
               add_rules(c, rules);
             });
}

void add_learner_report(const ReportMaker& maker,
                        const LearnerProgress& learner,
                        const PatternCatalogue& catalogue,
                        const ProgressRules& rules, int rate) {
  const Weeks weeks(learner);
  add_report(maker,
             {.heading = learner.code.text(),
              .title = "Progress",
              .code = last_of(std::span(&learner, 1)),
              .bookmark = "Progress of " + learner.code.text()},
             [&](Composer& c) {
               add_states(c, learner, catalogue);
               add_known_before(c, learner, catalogue);
               add_week_grid(c, learner, catalogue);
               add_rules(c, rules);
               add_plot(c, learner, weeks, rate);
             });
}

}  // namespace sheaf
