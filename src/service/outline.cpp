// The parts of a file for its outline, and remarks behind its words.

#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "analysis/standing_reports.h"
#include "base/utf8.h"
#include "phonics/explain.h"
#include "service/state.h"
#include "service/text_context.h"
#include "service/word_facts.h"

namespace sheaf {

namespace {

std::string_view part(std::string_view text, std::uint32_t begin,
                      std::uint32_t end) {
  return text.substr(begin, end - begin);
}

// The value on a key's own line, cut short.
std::string detail_of(std::string_view text, const KeyLine& key) {
  constexpr std::size_t kMost = 60;
  std::string value(part(text, key.value, key.end));
  if (key.lines) value.clear();
  if (const std::size_t comment = value.find(" #");
      comment != std::string::npos) {
    value.resize(comment);
  }
  while (!value.empty() && value.back() == ' ') value.pop_back();
  if (value.size() > kMost) {
    std::size_t end = kMost;
    while (end > 0 &&
           (static_cast<unsigned char>(value[end]) & 0xC0U) == 0x80U) {
      --end;
    }
    value.resize(end);
    value += "…";
  }
  return value;
}

// Keys within keys, by how far in they stand.
std::vector<Symbol> symbols_of(std::string_view text,
                               std::span<const KeyLine> keys,
                               std::uint32_t end) {
  std::vector<Symbol> symbols;
  for (std::size_t i = 0; i < keys.size();) {
    std::size_t next = i + 1;
    while (next < keys.size() && keys[next].indent > keys[i].indent) ++next;
    std::uint32_t stop = next < keys.size() ? keys[next].begin : end;
    while (stop > keys[i].end &&
           (text[stop - 1] == '\n' || text[stop - 1] == '\r')) {
      --stop;
    }
    symbols.push_back(
        {.name = std::string(part(text, keys[i].name.begin, keys[i].name.end)),
         .detail = detail_of(text, keys[i]),
         .range = {keys[i].begin, stop},
         .name_range = keys[i].name,
         .parts = symbols_of(text, keys.subspan(i + 1, next - i - 1), stop)});
    i = next;
  }
  return symbols;
}

// "sh·i·p", and where it cannot be read yet when it can.
std::string remark_on(const AnalyzedLesson& lesson, const AnalyzedWord& word) {
  std::string remark;
  for (const char c : graphemes_text(word.reading)) {
    if (c == ' ') {
      remark += "·";
    } else {
      remark += c;
    }
  }
  if (lesson.taught.known() &&
      word.standing.kind == WordStanding::Kind::not_yet) {
    remark +=
        word.standing.step < 0
            ? ", not taught"
            : fmt::format(
                  ", {}",
                  step_name(lesson.taught.steps()[static_cast<std::size_t>(
                      word.standing.step)]));
  }
  return remark;
}

}  // namespace

std::vector<Symbol> Service::symbols(const std::string& path) {
  const TextReading& reading = *state(path).now;
  if (reading.file == nullptr || reading.kind == FileKind::sentences) return {};
  const std::string& text = reading.file->text();
  const std::vector<KeyLine> keys = key_lines(text);
  return symbols_of(text, keys, static_cast<std::uint32_t>(text.size()));
}

// Only of a text that could be read: those of an earlier one would stand in
// the wrong places.
std::vector<Inlay> Service::inlays(const std::string& path, TextRange range) {
  const TextReading& reading = *state(path).now;
  std::vector<Inlay> inlays;
  if (reading.lesson == nullptr) return inlays;
  const AnalyzedLesson& lesson = reading.lesson->analyzed;
  const auto add = [&](const AnalyzedWord& word) {
    const Span& span = word.spelling.span;
    // What Sheaf chose stands nowhere.
    if (span.file != reading.file || span.is_whole() ||
        lower_case(span.text()) != lower_case(word.spelling.value) ||
        span.end < range.begin || span.end > range.end) {
      return;
    }
    const SeenWord seen{word, lesson.conventions, lesson.phonics, &lesson};
    std::string more;
    for (const std::string& line : lines_about(seen)) {
      more += (more.empty() ? "" : "\n") + line;
    }
    inlays.push_back({span.end, remark_on(lesson, word), std::move(more)});
  };
  for (const AnalyzedWord& word : lesson.words) add(word);
  for (const AnalyzedWord& word : lesson.dictate_words) add(word);
  std::ranges::sort(inlays, {}, &Inlay::at);
  return inlays;
}

}  // namespace sheaf
