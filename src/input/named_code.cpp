#include "input/named_code.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>

#include "base/utf8.h"

namespace sheaf {

namespace {

bool has_figure(const LearnerCode& code) {
  return std::ranges::any_of(code.text(),
                             [](char c) { return c >= '0' && c <= '9'; });
}

bool is_inside_word(std::string_view text, std::size_t at) {
  const auto c = static_cast<unsigned char>(text[at]);
  return std::isalnum(c) != 0 || c >= 0x80U;
}

bool has_word(std::string_view text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string_view::npos;
       at = text.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    if ((at == 0 || !is_inside_word(text, at - 1)) &&
        (end == text.size() || !is_inside_word(text, end))) {
      return true;
    }
  }
  return false;
}

// Everything that is shown as blank; line breaks stay.
void hide(const Span& span, std::string& text) {
  const std::size_t end = std::min<std::size_t>(span.end, text.size());
  for (std::size_t at = span.begin; at < end; ++at) {
    if (text[at] != '\n' && text[at] != '\r') text[at] = ' ';
  }
}

void hide_texts(const Value& value, std::string& text) {
  if (value.kind == Value::Kind::text) hide(value.span, text);
  for (const Value& item : value.items) hide_texts(item, text);
  for (const ValueEntry& entry : value.entries) {
    hide(entry.key.span, text);
    hide_texts(entry.value, text);
  }
}

// Keys whose values say something in the teacher's own words or name something.
bool is_remark(std::string_view key, FileKind kind) {
  constexpr std::array<std::string_view, 4> kWritten = {
      "wrong", "written", "writing", "review-words"};
  constexpr std::array<std::string_view, 4> kOfLessons = {"title", "group",
                                                          "author", "step"};
  if (kind == FileKind::record || kind == FileKind::learners) {
    return std::ranges::find(kWritten, key) == kWritten.end();
  }
  return key.ends_with("note") ||
         std::ranges::find(kOfLessons, key) != kOfLessons.end();
}

void hide_words(const Value& keys, FileKind kind, std::string& text) {
  for (const ValueEntry& entry : keys.entries) {
    if (!is_remark(entry.key.value, kind)) {
      hide_texts(entry.value, text);
      continue;
    }
    hide_words(entry.value, kind, text);
    for (const Value& item : entry.value.items) hide_words(item, kind, text);
  }
}

}  // namespace

bool names_code(std::string_view text, const LearnerCode& code) {
  const std::string& wanted = code.text();
  const std::string whole = normalized(text);
  return has_figure(code) ? has_word(lower_case(whole), lower_case(wanted))
                          : has_word(whole, wanted);
}

std::vector<std::uint32_t> lines_with_code(const SourceFile& file,
                                           const Value& keys, FileKind kind,
                                           const std::vector<Span>& known,
                                           const LearnerCode& code) {
  std::string text = file.text();
  for (const Span& span : known) hide(span, text);
  if (!has_figure(code) && has_key_of(kind, keys)) hide_words(keys, kind, text);
  std::vector<std::uint32_t> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end =
        std::min(text.find_first_of("\r\n", at), text.size());
    if (names_code(std::string_view(text).substr(at, end - at), code)) {
      lines.push_back(static_cast<std::uint32_t>(at));
    }
    at = end + 1;
  }
  return lines;
}

}  // namespace sheaf
