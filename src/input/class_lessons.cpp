#include "input/class_lessons.h"

#include <fmt/format.h>

#include <algorithm>

namespace sheaf {

namespace {

// A text to put in place of some bytes.
struct TextEdit {
  std::uint32_t begin = 0, end = 0;
  std::string text;
};

std::string as_lesson(const std::string& name) {
  if (name.find_first_of(":#{}[],&*!|>'\"%@`\\ ") == std::string::npos &&
      !name.starts_with('-')) {
    return name;
  }
  std::string quoted_name = "\"";
  for (const char c : name) {
    if (c == '"' || c == '\\') quoted_name += '\\';
    quoted_name += c;
  }
  return quoted_name + "\"";
}

// Takes the quotes around a value along.
TextEdit value_edit(std::string_view text, const LessonChange& change) {
  TextEdit edit{change.place.begin, change.place.end, as_lesson(change.lesson)};
  const bool quotes = edit.begin > 0 && edit.end < text.size() &&
                      text[edit.begin - 1] == text[edit.end] &&
                      (text[edit.end] == '"' || text[edit.end] == '\'');
  if (quotes) {
    --edit.begin;
    ++edit.end;
  }
  return edit;
}

// How far a line that begins at `at` is indented, or nothing where it is blank
// or a remark.
std::optional<std::size_t> indent_at(std::string_view text, std::size_t at) {
  const std::size_t first = text.find_first_not_of(' ', at);
  if (first == std::string_view::npos || text[first] == '\n' ||
      text[first] == '\r' || text[first] == '#') {
    return std::nullopt;
  }
  return first - at;
}

// Where a learner's `lesson:` goes: into the braces behind the code, above the
// keys beneath it, or into braces of its own.
std::optional<TextEdit> edit_for(std::string_view text, const Span& code,
                                 const std::string& lesson) {
  std::size_t at = code.end;
  while (at < text.size() &&
         (text[at] == ' ' || text[at] == '"' || text[at] == '\'')) {
    ++at;
  }
  if (at == text.size() || text[at] != ':') return std::nullopt;
  const auto behind = static_cast<std::uint32_t>(at + 1);
  const std::size_t value = text.find_first_not_of(' ', behind);
  const std::string key = fmt::format("lesson: {}", as_lesson(lesson));
  if (value != std::string_view::npos && text[value] == '{') {
    const std::size_t inside = text.find_first_not_of(' ', value + 1);
    const bool empty = inside != std::string_view::npos && text[inside] == '}';
    const auto open = static_cast<std::uint32_t>(value + 1);
    return TextEdit{open, open, key + (empty ? "" : ", ")};
  }
  const std::size_t line = text.rfind('\n', code.begin);
  const std::size_t begin = line == std::string_view::npos ? 0 : line + 1;
  const std::size_t own = code.begin - begin;
  for (std::size_t next = text.find('\n', at); next != std::string_view::npos;
       next = text.find('\n', next + 1)) {
    const auto indent = indent_at(text, next + 1);
    if (!indent) continue;
    if (*indent <= own) break;
    const auto above = static_cast<std::uint32_t>(next + 1);
    return TextEdit{above, above, std::string(*indent, ' ') + key + "\n"};
  }
  return TextEdit{behind, behind, fmt::format(" {{{}}}", key)};
}

}  // namespace

std::optional<std::string> with_lessons(
    const ClassFile& class_file, const std::vector<LessonChange>& changes,
    const std::map<LearnerCode, std::string>& own) {
  const std::string_view text = class_file.file->text();
  std::vector<TextEdit> edits;
  for (const LessonChange& change : changes) {
    edits.push_back(value_edit(text, change));
  }
  for (const auto& [code, lesson] : own) {
    const auto entry = std::ranges::find_if(
        class_file.learners,
        [&](const LearnerEntry& one) { return one.code.value == code; });
    if (entry == class_file.learners.end()) return std::nullopt;
    const auto edit = edit_for(text, entry->code.span, lesson);
    if (!edit) return std::nullopt;
    edits.push_back(*edit);
  }
  // From the end, so that places before it stay where they are.
  std::ranges::stable_sort(edits, std::ranges::greater{}, &TextEdit::begin);
  std::string changed(text);
  for (const TextEdit& edit : edits) {
    changed.replace(edit.begin, edit.end - edit.begin, edit.text);
  }
  // Whatever was written there, it has to be read as it was meant.
  const SourceFile again(class_file.file->name(), changed);
  Diagnostics unheard;
  const ClassFile read = read_class(again, unheard);
  if (unheard.has_errors() ||
      read.learners.size() != class_file.learners.size()) {
    return std::nullopt;
  }
  for (std::size_t i = 0; i < read.learners.size(); ++i) {
    const auto lesson = own.find(read.learners[i].code.value);
    if (lesson != own.end() &&
        read.learners[i].settings.lesson.value != lesson->second) {
      return std::nullopt;
    }
  }
  return changed;
}

}  // namespace sheaf
