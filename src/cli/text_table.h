#pragma once

#include <string>
#include <vector>

namespace sheaf {

/// Rows of text in columns as wide as they need to be, for a terminal.
class TextTable {
 public:
  explicit TextTable(std::vector<std::string> heads);
  void add(std::vector<std::string> row);
  bool empty() const { return rows_.size() < 2; }
  /// Each line begins with two spaces and ends without any.
  std::string text() const;

 private:
  std::vector<std::vector<std::string>> rows_;
};

/// A field of a table for spreadsheets (RFC 4180): in quotes where it has a
/// comma, a quote or a line break. Text that a spreadsheet would take for a
/// formula gets an apostrophe before it.
std::string csv_field(std::string_view text);

}  // namespace sheaf
