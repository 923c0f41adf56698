#include "base/value.h"

#include <algorithm>
#include <cassert>

namespace sheaf {

PlacedText::PlacedText(std::string text, Span span, std::vector<Run> runs)
    : text_(std::move(text)), span_(span), runs_(std::move(runs)) {
  assert(text_.empty() || (!runs_.empty() && runs_.front().text == 0));
}

std::uint32_t PlacedText::file_offset(std::size_t text_offset) const {
  const auto after = std::ranges::upper_bound(
      runs_, static_cast<std::uint32_t>(text_offset), {}, &Run::text);
  if (after == runs_.begin()) return span_.begin;
  const Run& run = *std::prev(after);
  return run.file + (static_cast<std::uint32_t>(text_offset) - run.text);
}

Span PlacedText::span_of(std::size_t begin, std::size_t end) const {
  if (!span_) return {};
  if (begin >= end) {
    const std::uint32_t at = std::min(file_offset(begin), span_.end);
    return {span_.file, at, at};
  }
  const std::uint32_t first = file_offset(begin);
  const std::uint32_t last = file_offset(end - 1) + 1;
  return {span_.file, first, std::max(first, last)};
}

Spanned<std::string> PlacedText::part(std::size_t begin,
                                      std::size_t end) const {
  return {text_.substr(begin, end - begin), span_of(begin, end)};
}

const Value* Value::find(std::string_view key) const {
  for (const ValueEntry& entry : entries) {
    if (entry.key.value == key) return &entry.value;
  }
  return nullptr;
}

std::string_view describe(Value::Kind kind) {
  switch (kind) {
    case Value::Kind::text:
      return "text";
    case Value::Kind::list:
      return "a list";
    case Value::Kind::keys:
      return "keys with values";
    case Value::Kind::nothing:
      break;
  }
  return "nothing";
}

}  // namespace sheaf
