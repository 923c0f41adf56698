#include "web/utf16_text.h"

#include <algorithm>

#include "base/utf8.h"

namespace sheaf {

Utf16Text::Utf16Text(std::string text) : text_(std::move(text)) {
  const auto is_ascii = [](char c) { return static_cast<signed char>(c) >= 0; };
  if (std::ranges::all_of(text_, is_ascii)) return;
  std::uint32_t units = 0;
  for (std::size_t at = 0; at < text_.size();) {
    steps_.push_back({static_cast<std::uint32_t>(at), units});
    units += next_code_point(text_, at) > 0xFFFF ? 2 : 1;
  }
  steps_.push_back({static_cast<std::uint32_t>(text_.size()), units});
}

std::uint32_t Utf16Text::units(std::uint32_t byte) const {
  const auto end = static_cast<std::uint32_t>(text_.size());
  if (steps_.empty()) return std::min(byte, end);
  const auto after = std::ranges::upper_bound(steps_, byte, {}, &Step::byte);
  return std::prev(after)->units;
}

std::uint32_t Utf16Text::byte(std::uint32_t units) const {
  const auto end = static_cast<std::uint32_t>(text_.size());
  if (steps_.empty()) return std::min(units, end);
  const auto after = std::ranges::upper_bound(steps_, units, {}, &Step::units);
  return std::prev(after)->byte;
}

int Utf16Text::line(std::uint32_t byte) const {
  const auto end =
      text_.begin() + std::min<std::ptrdiff_t>(byte, std::ssize(text_));
  return 1 + static_cast<int>(std::count(text_.begin(), end, '\n'));
}

int Utf16Text::column(std::uint32_t byte) const {
  const std::string_view before = std::string_view(text_).substr(
      0, std::min<std::size_t>(byte, text_.size()));
  const std::size_t begin = before.rfind('\n') + 1;  // npos + 1 is 0
  return 1 + count_characters(before.substr(begin));
}

}  // namespace sheaf
