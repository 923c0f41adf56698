#include "planning/lesson_text.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

// In double quotes, as YAML takes any text.
std::string quoted_title(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') quoted += '\\';
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace

std::string sentences_text(std::string_view key,
                           const std::vector<LessonLine>& lines) {
  std::string text = fmt::format("{}: |\n", key);
  for (const LessonLine& line : lines) {
    text += fmt::format("  {}\n", line.text());
  }
  return text;
}

std::string passage_text(const LessonPassage& passage) {
  std::string text = "passage:\n";
  if (!passage.title.text().empty()) {
    text += fmt::format("  title: {}\n", quoted_title(passage.title.text()));
  }
  text += "  text: |\n";
  bool first = true;
  for (const LessonLine& paragraph : passage.paragraphs) {
    text += fmt::format("{}    {}\n", first ? "" : "\n", paragraph.text());
    first = false;
  }
  if (passage.questions.empty()) return text;
  text += "  questions: |\n";
  for (const LessonLine& question : passage.questions) {
    text += fmt::format("    {}\n", question.text());
  }
  return text;
}

}  // namespace sheaf
