#include "cli/text_table.h"

#include <algorithm>

#include "base/utf8.h"

namespace sheaf {

TextTable::TextTable(std::vector<std::string> heads) {
  rows_.push_back(std::move(heads));
}

void TextTable::add(std::vector<std::string> row) {
  rows_.push_back(std::move(row));
}

std::string TextTable::text() const {
  std::vector<int> widths;
  for (const auto& row : rows_) {
    widths.resize(std::max(widths.size(), row.size()));
    for (std::size_t i = 0; i < row.size(); ++i) {
      widths[i] = std::max(widths[i], display_width(row[i]));
    }
  }
  std::string text;
  for (const auto& row : rows_) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) {
      line += "  " + row[i];
      const int blanks = widths[i] - display_width(row[i]);
      line.append(static_cast<std::size_t>(blanks), ' ');
    }
    line.resize(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text;
}

std::string csv_field(std::string_view text) {
  std::string field;
  if (!text.empty() && std::string_view("=+-@\t\r").find(text.front()) !=
                           std::string_view::npos) {
    field = "'";
  }
  field += text;
  if (field.find_first_of(",\"\n\r") == std::string::npos) return field;
  std::string in_quotes = "\"";
  for (const char c : field) {
    if (c == '"') in_quotes += '"';
    in_quotes += c;
  }
  return in_quotes + "\"";
}

}  // namespace sheaf
