#include "phonics/table_text.h"

namespace sheaf {

std::vector<std::string_view> split_at(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  std::size_t begin = 0;
  for (;;) {
    const std::size_t end = text.find(separator, begin);
    parts.push_back(text.substr(begin, end - begin));
    if (end == std::string_view::npos) return parts;
    begin = end + 1;
  }
}

std::vector<TableRow> table_rows(std::string_view text) {
  std::vector<TableRow> rows;
  int line = 0;
  for (std::string_view content : split_at(text, '\n')) {
    ++line;
    if (content.ends_with('\r')) content.remove_suffix(1);
    if (content.empty() || content.starts_with('#')) continue;
    rows.push_back({line, split_at(content, '\t')});
  }
  return rows;
}

}  // namespace sheaf
