#include "pictures/tables.h"

#include <algorithm>

namespace sheaf {

namespace {

std::vector<std::string_view> split(std::string_view text, char at) {
  std::vector<std::string_view> parts;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find(at, begin), text.size());
    parts.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return parts;
}

}  // namespace

std::vector<std::string_view> table_lines(std::string_view text) {
  std::vector<std::string_view> lines = split(text, '\n');
  std::erase_if(lines, [](std::string_view line) {
    return line.empty() || line.front() == '#';
  });
  return lines;
}

std::vector<std::string_view> table_cells(std::string_view line) {
  return split(line, '\t');
}

}  // namespace sheaf
