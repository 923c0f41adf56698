#include "base/source.h"

#include <algorithm>
#include <cassert>

#include "base/private_text.h"
#include "base/utf8.h"

namespace sheaf {

namespace {
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
}  // namespace

SourceFile::SourceFile(std::string name, std::string text)
    : name_(std::move(name)), text_(std::move(text)) {
  if (text_.starts_with(kByteOrderMark)) text_.erase(0, kByteOrderMark.size());
  line_begins_.push_back(0);
  for (std::uint32_t i = 0; i < text_.size(); ++i) {
    const bool lone_return =
        text_[i] == '\r' && (i + 1 == text_.size() || text_[i + 1] != '\n');
    if (text_[i] == '\n' || lone_return) line_begins_.push_back(i + 1);
  }
  private_ = is_about_learners(name_, text_);
}

SourceFile::Place SourceFile::place_of(std::uint32_t offset) const {
  offset = std::min<std::uint32_t>(offset, text_.size());
  const auto after = std::ranges::upper_bound(line_begins_, offset);
  const int line = static_cast<int>(after - line_begins_.begin());
  const std::uint32_t begin = line_begins_[line - 1];
  const auto before = std::string_view(text_).substr(begin, offset - begin);
  return {line, 1 + count_characters(before)};
}

std::string_view SourceFile::line(int line) const {
  const std::uint32_t begin = line_begin(line);
  const std::uint32_t end = line < static_cast<int>(line_begins_.size())
                                ? line_begins_[line]
                                : static_cast<std::uint32_t>(text_.size());
  std::string_view text = std::string_view(text_).substr(begin, end - begin);
  while (!text.empty() && (text.back() == '\n' || text.back() == '\r')) {
    text.remove_suffix(1);
  }
  return text;
}

std::uint32_t SourceFile::line_begin(int line) const {
  assert(line >= 1 && line <= static_cast<int>(line_begins_.size()));
  return line_begins_[line - 1];
}

std::string_view Span::text() const {
  if (file == nullptr || is_whole()) return {};
  return std::string_view(file->text()).substr(begin, end - begin);
}

Span join(const Span& a, const Span& b) {
  if (!a) return b;
  if (!b) return a;
  assert(a.file == b.file);
  return {a.file, std::min(a.begin, b.begin), std::max(a.end, b.end)};
}

}  // namespace sheaf
