#include "layout/table.h"

#include <algorithm>

#include "layout/heard.h"
#include "layout/strokes.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kCellPad = 1.8_mm;
constexpr Length kWritingLine = 8_mm;  // for a grown-up's hand

}  // namespace

ElementId add_head_cell(Composer& composer, ElementId row, Scope scope) {
  return composer.add(
      {.role = Role::header_cell, .parent = row, .scope = scope});
}

ElementId add_data_cell(Composer& composer, ElementId row) {
  return composer.add(Role::data_cell, row);
}

void draw_learner(Composer& composer, Block& block, std::string_view code,
                  Length left, ElementId row) {
  if (code.empty()) {
    add_data_cell(composer, row);
    return;
  }
  const TextStyle style =
      composer.style().text(composer.style().teacher_size, true);
  const Length base =
      (block.height - style.line_height()) / 2 + baseline_in_line(style);
  draw_text(composer, block, style, code, {left, base},
            add_head_cell(composer, row, Scope::row));
}

void draw_learner_head(Composer& composer, Block& block, Point at, Length room,
                       ElementId row, std::uint16_t rows) {
  constexpr std::string_view kTitle = "Learner";
  TextStyle style = composer.style().text(composer.style().teacher_size, true);
  const Length width = width_of(composer.shape(style, kTitle));
  if (width > room) {
    style.size = scaled(style.size, static_cast<double>(room.mils()) /
                                        static_cast<double>(width.mils()));
  }
  draw_text(composer, block, style, kTitle, at,
            composer.add({.role = Role::header_cell,
                          .parent = row,
                          .scope = Scope::column,
                          .rows = rows}));
}

Table::Table(Composer& composer, std::vector<Column> columns)
    : composer_(composer), columns_(std::move(columns)) {
  Length rest = composer.width();
  int shares = 0;
  for (const Column& c : columns_) {
    rest -= c.share == 0 ? c.fixed : Length();
    shares += c.share;
  }
  Length x;
  for (const Column& c : columns_) {
    const Length width =
        c.share == 0 ? c.fixed : rest * c.share / std::max(shares, 1);
    lefts_.push_back(x);
    widths_.push_back(width);
    x += width;
  }
  table_ = composer_.add(Role::table);
  const ElementId row = composer_.add(Role::table_row, table_);
  std::vector<Cell> titles;
  const TextStyle style = composer_.style().teacher_text(true);
  for (const Column& c : columns_) {
    titles.push_back({{.text = c.title, .style = style, .heard = c.heard}});
  }
  Block head = draw_row(titles, row, true, false);
  head.keep_with_next = true;
  composer_.blocks().push_back(head);
  head_ = repeated_head(head);
}

// A dash says that there is nothing to tell, and so may an empty cell: both in
// words of the column. Nothing can be heard where nothing is drawn, so there is
// a white ground.
void Table::hear_cell(Block& block, const Cell& cell, std::size_t column,
                      std::vector<TextLine>& lines, ElementId element) {
  const std::string& none = columns_[column].none;
  if (lines.empty()) {
    if (none.empty()) return;
    block.shade({lefts_[column] + kCellPad, kCellPad / 2,
                 widths_[column] - 2 * kCellPad, block.height - kCellPad},
                kWhite, add_heard(composer_, element, none));
    return;
  }
  if (cell.size() != 1 || cell.front().text != "–") return;
  for (TextLine::Run& run : lines.front().runs) {
    run.heard = std::make_shared<HeardRuns>();
    run.heard->text = none.empty() ? "none" : none;
  }
}

Block Table::draw_row(const std::vector<Cell>& cells, ElementId row,
                      bool column_heads, bool row_head) {
  const TextStyle text = composer_.style().teacher_text();
  Block block;
  cells_.clear();
  std::vector<std::vector<TextLine>> lines;
  std::size_t tallest = 1;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    Length width = widths_[i];
    for (std::size_t k = i + 1; i + 1 == cells.size() && k < widths_.size();
         ++k) {
      width += widths_[k];
    }
    lines.push_back(break_lines(composer_, cells[i], width - 2 * kCellPad));
    tallest = std::max(tallest, lines.back().size());
  }
  block.height =
      text.line_height() * static_cast<std::int64_t>(tallest) + kCellPad;
  if (column_heads) {
    block.shade({Length(), Length(), composer_.width(), block.height},
                kHeadGround);
  }
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const bool is_head = column_heads || (row_head && i == 0);
    Element element{is_head ? Role::header_cell : Role::data_cell, row};
    if (is_head) element.scope = column_heads ? Scope::column : Scope::row;
    if (i + 1 == cells.size()) {
      element.columns = static_cast<std::uint16_t>(columns_.size() - i);
    }
    const ElementId cell = composer_.add(std::move(element));
    cells_.push_back(cell);
    hear_cell(block, cells[i], i, lines[i], cell);
    Length y = kCellPad / 2 + baseline_in_line(text);
    for (const TextLine& line : lines[i]) {
      draw_line(composer_, block, line, {lefts_[i] + kCellPad, y}, cell);
      y += text.line_height();
    }
  }
  block.line({Length(), block.height}, {composer_.width(), block.height},
             thin_stroke(composer_.style()));
  return block;
}

void Table::add_row(const std::vector<Cell>& cells, bool heads) {
  const ElementId row = composer_.add(Role::table_row, table_);
  Block block = draw_row(cells, row, false, heads);
  block.head = head_;
  keep_two_together();
  composer_.blocks().push_back(std::move(block));
  ++rows_;
}

// No row stands alone below the head or on the table's last page: before one
// more row is added, the last stays with it, and the one before is let go.
void Table::keep_two_together() {
  if (rows_ == 0) return;
  auto& blocks = composer_.blocks();
  blocks.back().keep_with_next = true;
  if (rows_ > 2) blocks[blocks.size() - 2].keep_with_next = false;
}

void Table::add_row_with_line(const std::vector<Cell>& cells, std::size_t from,
                              bool heads) {
  add_row(cells, heads);
  Block& block = composer_.blocks().back();
  // The rule under the row moves down, and what is written stands above it.
  block.marks.pop_back();
  block.height += kWritingLine;
  const Composer& c = composer_;
  const Length base = block.height - 2_mm;
  block.line({lefts_[from] + kCellPad, base}, {c.width() - kCellPad, base},
             {.width = c.style().guide_weight},
             add_blank(composer_, cells_[from]));
  block.line({Length(), block.height}, {c.width(), block.height},
             thin_stroke(c.style()));
}

void Table::add_text_row(const std::vector<std::string>& cells, bool heads) {
  const TextStyle style = composer_.style().teacher_text();
  std::vector<Cell> row;
  for (const std::string& text : cells) row.push_back({{text, style}});
  add_row(row, heads);
}

}  // namespace sheaf
