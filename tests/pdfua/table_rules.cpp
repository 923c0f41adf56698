#include <algorithm>
#include <map>

#include "pdfua/structure.h"

namespace pdfua {

namespace {

struct Cell {
  const StructureElement* element = nullptr;
  std::size_t row = 0, column = 0;
  std::size_t row_span = 1, column_span = 1;
};

std::size_t span(const StructureElement& cell, const std::string& key) {
  QPDFObjectHandle value = attribute(cell.object, "/Table", key);
  if (!value.isInteger()) return 1;
  return static_cast<std::size_t>(std::clamp(value.getIntValue(), 1LL, 1000LL));
}

// The rows of a table, those of its head, body and foot among them.
std::vector<const StructureElement*> rows_of(const StructureElement& table) {
  std::vector<const StructureElement*> rows;
  for (const StructureElement* kid : table.kids) {
    if (kid->type == "TR") rows.push_back(kid);
    for (const StructureElement* row : kid->kids) {
      if (row->type == "TR" && kid->type != "TR") rows.push_back(row);
    }
  }
  return rows;
}

std::vector<const StructureElement*> cells_of(const StructureElement& row) {
  std::vector<const StructureElement*> cells;
  for (const StructureElement* kid : row.kids) {
    if (kid->type == "TH" || kid->type == "TD") cells.push_back(kid);
  }
  return cells;
}

// Cells set out on a grid as wide as the first row.
class Grid {
 public:
  explicit Grid(const StructureElement& table) : rows_(rows_of(table)) {
    if (rows_.empty()) return;
    for (const StructureElement* cell : cells_of(*rows_[0])) {
      width_ += span(*cell, "/ColSpan");
    }
    places_.resize(rows_.size(), std::vector<const StructureElement*>(width_));
  }

  // Reports the first fault of the grid, if any; a second one would only
  // follow from it.
  void fill(Report& report) {
    for (std::size_t row = 0; row < rows_.size(); ++row) {
      std::size_t column = 0;
      for (const StructureElement* element : cells_of(*rows_[row])) {
        while (column < width_ && places_[row][column]) ++column;
        const Cell cell = {element, row, column, span(*element, "/RowSpan"),
                           span(*element, "/ColSpan")};
        if (!place(cell, report)) return;
        column += cell.column_span;
      }
    }
    for (const auto& row : places_) {
      for (const StructureElement* cell : row) {
        if (cell) continue;
        report.fault("7.2", 42, "a row with fewer cells than the first");
        return;
      }
    }
  }

  const std::vector<Cell>& cells() const { return cells_; }

 private:
  bool place(const Cell& cell, Report& report) {
    if (cell.column + cell.column_span > width_) {
      report.fault("7.2", 43, "a row with more cells than the first");
      return false;
    }
    if (cell.row + cell.row_span > rows_.size()) {
      report.fault("7.2", 41, "a cell that goes on below the last row");
      return false;
    }
    for (std::size_t r = 0; r < cell.row_span; ++r) {
      for (std::size_t c = 0; c < cell.column_span; ++c) {
        auto& place = places_[cell.row + r][cell.column + c];
        if (place) {
          report.fault("7.2", 15, "two cells in one place");
          return false;
        }
        place = cell.element;
      }
    }
    cells_.push_back(cell);
    return true;
  }

  std::vector<const StructureElement*> rows_;
  std::size_t width_ = 0;
  std::vector<std::vector<const StructureElement*>> places_;
  std::vector<Cell> cells_;
};

bool has_scope(const Cell& header, const char* scope) {
  QPDFObjectHandle value =
      attribute(header.element->object, "/Table", "/Scope");
  return value.isNameAndEquals(scope) || value.isNameAndEquals("/Both");
}

bool is_headed_by(const Cell& cell, const Cell& header) {
  if (header.element->type != "TH") return false;
  const bool same_row = header.row < cell.row + cell.row_span &&
                        cell.row < header.row + header.row_span;
  const bool same_column = header.column < cell.column + cell.column_span &&
                           cell.column < header.column + header.column_span;
  return (same_row && has_scope(header, "/Row")) ||
         (same_column && has_scope(header, "/Column"));
}

// Names of headers in /Headers that no TH of the table bears as its /ID.
std::string unknown_headers(const Cell& cell, const std::vector<Cell>& cells,
                            bool& names_any) {
  QPDFObjectHandle headers =
      attribute(cell.element->object, "/Table", "/Headers");
  std::string unknown;
  names_any = headers.isArray() && headers.getArrayNItems() > 0;
  if (!names_any) return unknown;
  for (QPDFObjectHandle name : headers.aitems()) {
    const bool known =
        std::any_of(cells.begin(), cells.end(), [&](const Cell& header) {
          QPDFObjectHandle object = header.element->object;
          QPDFObjectHandle id = object.getKey("/ID");
          return header.element->type == "TH" && id.isString() &&
                 name.isString() &&
                 id.getStringValue() == name.getStringValue();
        });
    if (!known) {
      unknown += name.isString() ? name.getUTF8Value() + " " : "? ";
    }
  }
  return unknown;
}

void check_headers(const std::vector<Cell>& cells, Report& report) {
  const bool has_headers =
      std::any_of(cells.begin(), cells.end(),
                  [](const Cell& cell) { return cell.element->type == "TH"; });
  if (!has_headers) return;
  for (const Cell& cell : cells) {
    if (cell.element->type != "TD") continue;
    bool names_any = false;
    const std::string unknown = unknown_headers(cell, cells, names_any);
    const bool headed =
        (names_any && unknown.empty()) ||
        std::any_of(cells.begin(), cells.end(), [&](const Cell& header) {
          return is_headed_by(cell, header);
        });
    report.require(headed || !unknown.empty(), "7.5", 1,
                   "a cell that no header with a scope belongs to");
    report.require(headed || unknown.empty(), "7.5", 2,
                   "a cell that names unknown headers: " + unknown);
  }
}

}  // namespace

void check_tables(const StructureTree& tree, Report& report) {
  for (const StructureElement& element : tree.elements()) {
    if (element.type != "Table") continue;
    Grid grid(element);
    grid.fill(report);
    check_headers(grid.cells(), report);
  }
}

}  // namespace pdfua
