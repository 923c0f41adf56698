#include "input/yaml_lines.h"

#include <algorithm>

namespace sheaf {

namespace {

constexpr std::string_view kSpaces = " \t\r";

}  // namespace

bool FileLine::dash() const {
  return !blank() && source[first] == '-' &&
         (first + 1 == end || source[first + 1] == ' ');
}

std::size_t FileLine::content() const {
  std::size_t at = first;
  while (at < end && source[at] == '-' &&
         (at + 1 == end || source[at + 1] == ' ')) {
    at = std::min(source.find_first_not_of(kSpaces, at + 1), end);
  }
  return at;
}

std::optional<std::size_t> FileLine::colon() const {
  std::size_t at = content();
  if (at == end) return std::nullopt;
  if (source[at] == '"' || source[at] == '\'') {
    const std::size_t close = source.find(source[at], at + 1);
    if (close == std::string_view::npos || close >= end) return std::nullopt;
    at = source.find_first_not_of(kSpaces, close + 1);
    if (at >= end || source[at] != ':') return std::nullopt;
    return at;
  }
  for (; at < end; ++at) {
    if (source[at] == '#' && at > begin && source[at - 1] == ' ')
      return std::nullopt;
    if (source[at] != ':') continue;
    if (at + 1 == end || source[at + 1] == ' ') return at;
  }
  return std::nullopt;
}

std::size_t FileLine::value() const {
  const auto after = colon();
  const std::size_t from = after ? *after + 1 : content();
  return std::min(source.find_first_not_of(kSpaces, from), end);
}

FileLine line_around(std::string_view source, std::size_t at) {
  at = std::min(at, source.size());
  FileLine line;
  line.source = source;
  const std::size_t before =
      at == 0 ? std::string_view::npos : source.rfind('\n', at - 1);
  line.begin = before == std::string_view::npos ? 0 : before + 1;
  line.end = std::min(source.find('\n', at), source.size());
  while (line.end > line.begin &&
         kSpaces.find(source[line.end - 1]) != std::string_view::npos) {
    --line.end;
  }
  line.first =
      std::min(source.find_first_not_of(kSpaces, line.begin), line.end);
  return line;
}

std::optional<FileLine> line_above(const FileLine& line) {
  FileLine above = line;
  while (above.begin > 0) {
    above = line_around(line.source, above.begin - 1);
    if (!above.blank() && !above.comment()) return above;
  }
  return std::nullopt;
}

}  // namespace sheaf
