#include "pictures/emoji.h"

#include <algorithm>
#include <cassert>
#include <charconv>
#include <vector>

#include "base/utf8.h"
#include "pictures/tables.h"

namespace sheaf {

namespace {

constexpr char32_t kJoiner = 0x200D;
constexpr char32_t kFirstSkinTone = 0x1F3FB;
constexpr char32_t kLastSkinTone = 0x1F3FF;
struct Blocked {
  char32_t first, last;
  std::string_view why;
};

char32_t read_code_point(std::string_view name) {
  std::uint32_t value = 0;
  assert(name.starts_with("U+"));
  std::from_chars(name.data() + 2, name.data() + name.size(), value, 16);
  return value;
}

std::vector<Blocked> read_blocked() {
  std::vector<Blocked> blocked;
  const auto lines = table_lines(blocked_pictures_table());
  // The first line names the columns.
  for (std::size_t i = 1; i < lines.size(); ++i) {
    const std::vector<std::string_view> cells = table_cells(lines[i]);
    assert(cells.size() == 3);
    blocked.push_back(
        {read_code_point(cells[0]), read_code_point(cells[1]), cells[2]});
  }
  return blocked;
}

const Blocked* find_blocked(char32_t code_point) {
  static const std::vector<Blocked> table = read_blocked();
  const auto found =
      std::find_if(table.begin(), table.end(), [&](const Blocked& row) {
        return row.first <= code_point && code_point <= row.last;
      });
  return found == table.end() ? nullptr : &*found;
}

std::u32string code_points(std::string_view text) {
  std::u32string result;
  for (std::size_t offset = 0; offset < text.size();) {
    result += next_code_point(text, offset);
  }
  return result;
}

}  // namespace

bool looks_like_emoji(std::string_view text) {
  return !text.empty() && std::none_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '.' ||
           c == '/';
  });
}

std::string plain_emoji(std::string_view emoji) {
  std::string plain;
  const std::u32string all = code_points(emoji);
  for (const char32_t c : all) {
    const bool is_skin = c >= kFirstSkinTone && c <= kLastSkinTone;
    const bool is_style = c == 0xFE0E || c == 0xFE0F;
    if (is_style || (is_skin && all.size() > 1)) continue;
    append_utf8(plain, c);
  }
  return plain;
}

bool may_stand_on_a_page(std::string_view emoji, std::string& why) {
  if (count_characters(emoji) != 1) {
    why = "it is not a single emoji";
    return false;
  }
  char32_t before = 0;
  for (const char32_t c : code_points(emoji)) {
    const Blocked* blocked = before == kJoiner ? nullptr : find_blocked(c);
    if (blocked) {
      why = blocked->why;
      return false;
    }
    before = c;
  }
  return true;
}

std::string text_of_code_points(std::string_view names) {
  std::string text;
  while (!names.empty()) {
    const std::size_t end = std::min(names.find(' '), names.size());
    append_utf8(text, read_code_point(names.substr(0, end)));
    names.remove_prefix(std::min(end + 1, names.size()));
  }
  return text;
}

}  // namespace sheaf
