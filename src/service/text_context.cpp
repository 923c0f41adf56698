#include "service/text_context.h"

#include <algorithm>
#include <optional>

namespace sheaf {

namespace {

bool is_key_sign(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
         (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '\'' ||
         (static_cast<unsigned char>(c) & 0x80U) != 0;
}

std::uint32_t offset(std::size_t at) { return static_cast<std::uint32_t>(at); }

struct Line {
  std::size_t begin = 0, end = 0;
  std::string_view in(std::string_view text) const {
    return text.substr(begin, end - begin);
  }
};

std::vector<Line> lines_of(std::string_view text) {
  std::vector<Line> lines;
  for (std::size_t begin = 0; begin <= text.size();) {
    std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::size_t next = end + 1;
    if (end > begin && text[end - 1] == '\r') --end;
    lines.push_back({begin, end});
    begin = next;
  }
  return lines;
}

int indent_of(std::string_view line) {
  return static_cast<int>(std::min(line.find_first_not_of(' '), line.size()));
}

bool is_blank(std::string_view line) {
  const std::size_t first = line.find_first_not_of(" \t");
  return first == std::string_view::npos || line[first] == '#';
}

std::optional<KeyLine> key_line(std::string_view text, const Line& at) {
  const std::string_view line = at.in(text);
  if (is_blank(line)) return std::nullopt;
  KeyLine key{.indent = indent_of(line),
              .begin = offset(at.begin),
              .end = offset(at.end)};
  std::size_t i = static_cast<std::size_t>(key.indent);
  if (line.substr(i).starts_with("- ")) {
    key.item = true;
    i = std::min(line.find_first_not_of(' ', i + 2), line.size());
    key.indent = static_cast<int>(i);
  }
  const std::size_t begin = i;
  while (i < line.size() && is_key_sign(line[i])) ++i;
  if (i == begin || i >= line.size() || line[i] != ':') return std::nullopt;
  if (i + 1 < line.size() && line[i + 1] != ' ') return std::nullopt;
  key.name = {offset(at.begin + begin), offset(at.begin + i)};
  const std::size_t value = line.find_first_not_of(' ', i + 1);
  key.value = offset(at.begin + std::min(value, line.size()));
  key.lines = value != std::string_view::npos &&
              (line[value] == '|' || line[value] == '>');
  return key;
}

// The token around a place, and the piece up to it.
void find_parts(std::string_view text, std::size_t from, std::size_t at,
                std::size_t end, TextContext& context) {
  std::size_t begin = at, stop = at;
  while (begin > from && is_key_sign(text[begin - 1])) --begin;
  while (stop < end && is_key_sign(text[stop])) ++stop;
  context.token = {offset(begin), offset(stop)};
  std::size_t piece = at;
  while (piece > from && std::string_view(",/[{").find(text[piece - 1]) ==
                             std::string_view::npos) {
    --piece;
  }
  piece = std::min(text.find_first_not_of(' ', piece), at);
  context.piece = {offset(piece), offset(at)};
}

}  // namespace

std::vector<KeyLine> key_lines(std::string_view text) {
  std::vector<KeyLine> keys;
  std::optional<int> within;  // the indent of a key with lines under `|`
  for (const Line& at : lines_of(text)) {
    const std::string_view line = at.in(text);
    if (within && (line.find_first_not_of(" \t") == std::string_view::npos ||
                   indent_of(line) > *within)) {
      continue;
    }
    if (is_blank(line)) continue;
    within.reset();
    const auto key = key_line(text, at);
    if (!key) continue;
    if (key->lines) within = indent_of(line);
    keys.push_back(*key);
  }
  return keys;
}

std::vector<std::string> top_keys(std::string_view text) {
  std::vector<std::string> keys;
  for (const KeyLine& key : key_lines(text)) {
    if (key.indent > 0) continue;
    keys.emplace_back(
        text.substr(key.name.begin, key.name.end - key.name.begin));
  }
  return keys;
}

TextContext context_at(std::string_view text, std::uint32_t place) {
  const std::size_t at = std::min<std::size_t>(place, text.size());
  TextContext context;
  const std::vector<Line> lines = lines_of(text);
  const auto line = std::ranges::find_if(
      lines, [&](const Line& l) { return at <= l.end || &l == &lines.back(); });
  const std::string_view own = line->in(text);
  const std::size_t column = std::min(at, line->end) - line->begin;

  // What stands above, from the innermost: each less far in than the last.
  const std::vector<KeyLine> keys = key_lines(text);
  int inside = is_blank(own)
                   ? static_cast<int>(std::max<std::size_t>(column, 0))
                   : indent_of(own);
  const bool is_item =
      own.substr(static_cast<std::size_t>(indent_of(own))).starts_with("-");
  std::vector<std::string> above;
  const KeyLine* holder = nullptr;
  for (auto key = keys.rbegin(); key != keys.rend(); ++key) {
    if (key->begin >= line->begin) continue;
    // A list may stand as far in as its key.
    const bool opens =
        key->indent < inside ||
        (holder == nullptr && is_item && key->indent == inside && !key->item);
    if (!opens) continue;
    if (holder == nullptr) holder = &*key;
    above.emplace_back(
        text.substr(key->name.begin, key->name.end - key->name.begin));
    inside = key->indent;
    if (key->item) inside = indent_of(text.substr(key->begin));
  }
  std::ranges::reverse(above);
  context.above = std::move(above);
  context.in_lines = holder != nullptr && holder->lines;
  std::size_t from = line->begin;
  if (!context.in_lines) {
    const std::size_t comment = own.starts_with('#') ? 0 : own.find(" #");
    context.in_comment = comment != std::string_view::npos && column > comment;
    const auto key = std::ranges::find(keys, line->begin, &KeyLine::begin);
    std::size_t first = std::min(own.find_first_not_of(' '), own.size());
    context.in_item = is_item;
    if (is_item) {
      first = std::min(own.find_first_not_of(' ', first + 1), own.size());
    }
    if (key != keys.end()) {
      context.in_key = at <= key->name.end;
      context.own =
          text.substr(key->name.begin, key->name.end - key->name.begin);
      from = context.in_key ? key->name.begin
                            : std::min<std::size_t>(key->value, at);
    } else {
      from = line->begin + std::min(first, column);
      // At the left edge a key begins; further in, a value may go on.
      const bool single =
          !is_item && own.substr(first).find(' ') == std::string_view::npos;
      context.in_key = single && first == 0 && (column == 0 || !is_blank(own));
      context.may_be_key = single && !context.in_key;
    }
  }
  find_parts(text, from, at, line->end, context);
  return context;
}

}  // namespace sheaf
