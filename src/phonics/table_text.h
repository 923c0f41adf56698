#pragma once

#include <string_view>
#include <vector>

namespace sheaf {

/// The data files of Sheaf are tables: a line a row, cells parted by tabs,
/// `#` at the head of a line begins a remark.
struct TableRow {
  int line = 0;  ///< counts from 1
  std::vector<std::string_view> cells;

  std::string_view cell(std::size_t i) const {
    return i < cells.size() ? cells[i] : std::string_view{};
  }
};

std::vector<TableRow> table_rows(std::string_view text);

std::vector<std::string_view> split_at(std::string_view text, char separator);

}  // namespace sheaf
