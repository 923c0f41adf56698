#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "layout/strokes.h"
#include "layout/text_block.h"

namespace sheaf {

/// How dark the ground is under the head of a table: it survives a photocopier,
/// and can be written on.
inline constexpr Ink kHeadGround = kLightGround;

/// A cell's element, for tables that a sheet draws by itself.
ElementId add_head_cell(Composer& composer, ElementId row,
                        Scope scope = Scope::column);
ElementId add_data_cell(Composer& composer, ElementId row);

/// Begins the row of a learner: the code in the middle of its first cell, which
/// is left to be filled in where there is none.
void draw_learner(Composer& composer, Block& block, std::string_view code,
                  Length left, ElementId row);

/// The head of their column, in bold, smaller where `room` is narrow; it takes
/// as many rows as the table's head has.
void draw_learner_head(Composer& composer, Block& block, Point at, Length room,
                       ElementId row, std::uint16_t rows = 1);

/// A table of text for teacher's pages: a head row that is drawn again on
/// every page, rows that are never divided, a thin rule under each.
class Table {
 public:
  struct Column {
    std::string title;
    /// Share of the width that is left after the fixed columns; 0 for a column
    /// that takes `fixed`.
    int share = 1;
    Length fixed = {};
    /// What is said of a cell that is empty or has a dash alone: "not asked".
    /// Where it is not set, an empty cell is heard as such, and a dash as
    /// "none".
    std::string none = {};
    /// What is said in place of the title, where that is cut short.
    std::string heard = {};
  };
  using Cell = std::vector<TextPiece>;

  Table(Composer& composer, std::vector<Column> columns);

  /// Adds a row; its first cell is a row header where `heads` is set. Where
  /// there are fewer cells than columns, the last takes the rest.
  void add_row(const std::vector<Cell>& cells, bool heads = false);
  /// The same with plain text.
  void add_text_row(const std::vector<std::string>& cells, bool heads = false);
  /// Adds a row with a line to write on below, from column `from` to the right
  /// edge; it is heard after the text of that column.
  void add_row_with_line(const std::vector<Cell>& cells, std::size_t from,
                         bool heads = false);

 private:
  void keep_two_together();
  void hear_cell(Block& block, const Cell& cell, std::size_t column,
                 std::vector<TextLine>& lines, ElementId element);
  Block draw_row(const std::vector<Cell>& cells, ElementId row,
                 bool column_heads, bool row_head);

  Composer& composer_;
  std::vector<Column> columns_;
  std::vector<Length> lefts_;
  std::vector<Length> widths_;
  std::vector<ElementId> cells_;  // of the row that was drawn last
  std::size_t rows_ = 0;
  ElementId table_;
  std::shared_ptr<const Block> head_;
};

}  // namespace sheaf
