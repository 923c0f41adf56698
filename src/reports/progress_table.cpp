#include "reports/progress_table.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/heard_text.h"
#include "layout/strokes.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "marking/likely_range.h"
#include "reports/report_document.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kCellPad = 1_mm;
constexpr Length kLeastWeek = 9_mm;
constexpr Length kMostWeek = 16_mm;
constexpr double kRowLeading = 1.2;

// One line of the table before it is drawn.
struct WeekCell {
  std::string figure, heard;
  int frame = 0;  // 1: thin, 2: heavy
};
struct TableRow {
  std::string name, state, based, based_heard;
  bool strong = false;
  std::vector<WeekCell> weeks;
};

WeekCell week_cell(const Share& share) {
  if (share.of == 0) return {.figure = {}, .heard = "not asked"};
  WeekCell cell{.figure = fmt::format("{}/{}", share.right, share.of),
                .heard = fmt::format("{} of {}", share.right, share.of)};
  if (share.of < Share::kLeastForPercent || share.reaches(80)) return cell;
  cell.frame = share.reaches(50) ? 1 : 2;
  cell.heard += cell.frame == 1 ? ", 50 to 79%" : ", less than half";
  return cell;
}

// The weeks from the learner's first to their last, whoever wrote in between.
struct Shown {
  std::size_t from = 0, count = 0, of_all = 0;
};

Shown weeks_of(const LearnerProgress& learner, const SchoolWeeks& weeks) {
  std::size_t first = weeks.size(), last = 0;
  const auto take = [&](const Date& day) {
    const std::size_t week = weeks.of(day);
    if (week == weeks.size()) return;
    first = std::min(first, week);
    last = std::max(last, week + 1);
  };
  for (const SequencePoint& point : learner.sequences) take(point.date);
  for (const PatternProgress& p : learner.patterns) {
    for (const ProgressPoint& point : p.points) take(point.date);
  }
  const std::size_t count = last > first ? last - first : 0;
  return {first, count, count};
}

// What is secure carries the day on which it was last seen.
std::string state_text(const PatternProgress& p) {
  if (p.state != ProgressState::secure) {
    return std::string(state_name(p.state));
  }
  return fmt::format("{}, {}", state_name(p.state), short_date(p.last));
}

TableRow pattern_row(const PatternProgress& p, const std::string& name,
                     const SchoolWeeks& weeks) {
  TableRow row{.name = name,
               .state = state_text(p),
               .based = fmt::format("{}/{}, {}", p.window.right, p.window.of,
                                    likely_short(p.window)),
               .based_heard = fmt::format("{} of {}, {}", p.window.right,
                                          p.window.of, likely_text(p.window)),
               .strong = p.state == ProgressState::check_again,
               .weeks = {}};
  std::vector<Share> sums(weeks.size());
  for (const ProgressPoint& point : p.points) {
    const std::size_t week = weeks.of(point.date);
    if (week < sums.size()) sums[week] += point.share;
  }
  for (const Share& sum : sums) row.weeks.push_back(week_cell(sum));
  return row;
}

// Of each hundred letter sequences of the weekly lists those that were right.
TableRow list_row(const LearnerProgress& learner, const SchoolWeeks& weeks) {
  TableRow row{.name = "Letter pairs right, of each 100",
               .state = {},
               .based = {},
               .based_heard = {},
               .weeks = {}};
  std::vector<LetterSequences> sums(weeks.size());
  for (const SequencePoint& point : learner.sequences) {
    const std::size_t week = weeks.of(point.date);
    if (point.kind == Record::Kind::probe || week >= sums.size()) continue;
    sums[week] += point.sequences;
  }
  for (const LetterSequences& sum : sums) {
    WeekCell cell{.figure = {}, .heard = "none"};
    if (sum.possible > 0) {
      cell.figure = fmt::format(
          "{}", (200 * sum.correct + sum.possible) / (2 * sum.possible));
      cell.heard = cell.figure;
    }
    row.weeks.push_back(std::move(cell));
  }
  return row;
}

class ProgressTable {
 public:
  ProgressTable(Composer& c, const std::vector<TableRow>& rows, Shown& shown)
      : c_(c), text_(row_text(false)), bold_(row_text(true)) {
    const Length pad = 3 * kCellPad;
    for (const TableRow& row : rows) {
      if (row.state.empty()) continue;
      name_ = std::max(name_, width_of(c.shape(bold_, row.name)) + pad);
      state_ = std::max(state_, width_of(c.shape(bold_, row.state)) + pad);
      based_ = std::max(based_, width_of(c.shape(text_, row.based)) + pad);
    }
    name_ = std::clamp(name_, width_of(c.shape(bold_, "Pattern")) + pad, 42_mm);
    state_ = std::max(state_, width_of(c.shape(bold_, "Status")) + pad);
    based_ = std::max(based_, width_of(c.shape(bold_, "Right, range")) + pad);
    Length cell = kLeastWeek;
    for (const TableRow& row : rows) {
      for (const WeekCell& week : row.weeks) {
        cell = std::max(cell,
                        width_of(c.shape(text_, week.figure)) + 2 * kCellPad);
      }
    }
    const Length room = c.width() - name_ - state_ - based_;
    const auto fit =
        static_cast<std::size_t>(std::max<std::int64_t>(1, room / cell));
    if (shown.count > fit) {
      shown.from += shown.count - fit;
      shown.count = fit;
    }
    shown_ = shown;
    week_ =
        std::min(kMostWeek, room / static_cast<std::int64_t>(
                                       std::max<std::size_t>(shown.count, 1)));
    table_ = c.add(Role::table);
  }

  void add_head(const SchoolWeeks& weeks) {
    Block& block = c_.block(text_.line_height() * 2 + kCellPad, 2_mm);
    block.keep_with_next = true;
    block.shade({Length(), Length(), width(), block.height}, kHeadGround);
    const ElementId row = c_.add(Role::table_row, table_);
    const Length first = kCellPad / 2 + baseline_in_line(text_);
    const Length second = first + text_.line_height();
    Length x = kCellPad;
    const auto head = [&](std::string_view title, Length wide) {
      draw_text(c_, block, bold_, title, {x, second}, add_head_cell(c_, row));
      x += wide;
    };
    head("Pattern", name_);
    head("Status", state_);
    head("Right, range", based_);
    for (std::size_t i = 0; i < shown_.count; ++i) {
      const Date monday = weeks.begins(shown_.from + i);
      const std::string date = short_date(monday);
      const std::size_t blank = date.find(' ');
      const ElementId cell = add_head_cell(c_, row);
      const ElementId heard = add_heard(c_, cell, "week of " + date);
      draw_centred(c_, block, bold_, date.substr(0, blank), {middle(i), first},
                   heard);
      draw_centred(c_, block, bold_, date.substr(blank + 1),
                   {middle(i), second}, heard);
    }
    head_ = repeated_head(block);
  }

  void add_row(const TableRow& row) {
    const bool across = row.state.empty();
    const std::vector<TextLine> names =
        break_lines(c_, bold_, row.name,
                    (across ? name_ + state_ + based_ : name_) - 2 * kCellPad);
    const auto lines = static_cast<std::int64_t>(names.size());
    Block& block = c_.block(
        text_.line_height() * std::max<std::int64_t>(lines, 1) + kCellPad);
    block.head = head_;
    const ElementId element = c_.add(Role::table_row, table_);
    const ElementId name = add_head_cell(c_, element, Scope::row);
    const Length base = kCellPad / 2 + baseline_in_line(text_);
    Length y = base;
    for (const TextLine& line : names) {
      draw_line(c_, block, line, {kCellPad, y}, name);
      y += text_.line_height();
    }
    const ElementId state = add_data_cell(c_, element);
    const ElementId based = add_data_cell(c_, element);
    if (!across) {
      draw_text(c_, block, row.strong ? bold_ : text_, row.state,
                {name_ + kCellPad, base}, state);
      draw_text(c_, block, text_, row.based, {name_ + state_ + kCellPad, base},
                add_heard(c_, based, row.based_heard));
    }
    for (std::size_t i = 0; i < shown_.count; ++i) {
      draw_week(block, row.weeks[shown_.from + i], i, base,
                add_data_cell(c_, element));
    }
    block.line({Length(), block.height}, {width(), block.height},
               thin_stroke(c_.style()));
  }

 private:
  TextStyle row_text(bool bold) const {
    TextStyle style = c_.style().teacher_text(bold);
    style.leading = kRowLeading;
    return style;
  }
  Length width() const {
    return name_ + state_ + based_ +
           week_ * static_cast<std::int64_t>(shown_.count);
  }
  Length middle(std::size_t i) const {
    return name_ + state_ + based_ + week_ * static_cast<std::int64_t>(i) +
           week_ / 2;
  }

  void draw_week(Block& block, const WeekCell& week, std::size_t i, Length base,
                 ElementId cell) {
    const Rect inside{middle(i) - week_ / 2 + 0.4_mm, 0.5_mm, week_ - 0.8_mm,
                      block.height - 1_mm};
    if (week.frame > 0) {
      block.frame(inside, week.frame == 2
                              ? Stroke{.width = c_.style().box_weight * 3 / 2}
                              : thin_stroke(c_.style()));
    }
    const ElementId heard =
        week.heard == week.figure ? cell : add_heard(c_, cell, week.heard);
    if (week.figure.empty()) {
      // Nothing can be heard where nothing is drawn; clear of the rules.
      block.shade({inside.x + kCellPad, inside.y + kCellPad,
                   inside.width - 2 * kCellPad, inside.height - 2 * kCellPad},
                  kWhite, heard);
    } else {
      draw_centred(c_, block, text_, week.figure, {middle(i), base}, heard);
    }
  }

  Composer& c_;
  TextStyle text_, bold_;
  Length name_, state_, based_, week_;
  Shown shown_;
  ElementId table_ = kDecoration;
  std::shared_ptr<const Block> head_;
};

}  // namespace

void add_progress_table(Composer& c, const LearnerProgress& learner,
                        const std::vector<const PatternProgress*>& patterns,
                        const PatternCatalogue& catalogue,
                        const SchoolWeeks& weeks) {
  std::vector<TableRow> rows;
  for (const PatternProgress* p : patterns) {
    rows.push_back(pattern_row(*p, column_title(catalogue[p->pattern]), weeks));
  }
  const TableRow list = list_row(learner, weeks);
  if (std::ranges::any_of(list.weeks, [](const WeekCell& cell) {
        return !cell.figure.empty();
      })) {
    rows.push_back(list);
  }
  if (rows.empty()) return;
  Shown shown = weeks_of(learner, weeks);
  ProgressTable table(c, rows, shown);
  table.add_head(weeks);
  for (const TableRow& row : rows) table.add_row(row);
  std::string legend =
      "A week has what was right of the words asked. From five words on a thin "
      "frame says 50 to 79%, a heavy one less than half.";
  if (shown.count < shown.of_all) {
    legend += fmt::format(" Shown: the last {} of {} school weeks.",
                          shown.count, shown.of_all);
  }
  TextStyle text = c.style().teacher_text();
  text.leading = kRowLeading;
  add_paragraph(c, text, legend, {.space_before = 1_mm});
}

}  // namespace sheaf
