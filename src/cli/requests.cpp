#include "cli/requests.h"

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/pool.h"
#include "base/utf8.h"
#include "sheets/sheet.h"

namespace sheaf {

int CommandLine::workers() const { return jobs > 0 ? jobs : cores(); }

LessonRequest lesson_request(const CommandLine& line) {
  return {line.layout, line.paper, line.only, line.allowed_folders};
}

ClassRequest class_request(const CommandLine& line) {
  return {lesson_request(line),
          line.arguments.empty() ? std::string() : line.arguments.front(),
          codes_given(line.learners), line.marking.records};
}

MarkingRequest marking_request(const CommandLine& line) {
  return {line.allowed_folders, line.accent, line.marking.confusions,
          line.workers(), line.marking.speech};
}

std::vector<LearnerCode> codes_given(const std::vector<std::string>& texts) {
  std::vector<LearnerCode> codes;
  for (const std::string& text : texts) {
    if (auto code = LearnerCode::read(text)) codes.push_back(*std::move(code));
  }
  return codes;
}

bool known_sheets(const CommandLine& line) {
  std::vector<std::string_view> names;
  for (const SheetKind* kind : sheet_kinds()) names.push_back(kind->name);
  for (const std::string& name : line.only) {
    if (find_sheet_kind(name) != nullptr) continue;
    const std::string nearest = did_you_mean(name, names).text;
    fmt::print(stderr, "sheaf: there is no sheet called {}; {}\n",
               sheaf::quoted(name),
               nearest.empty() ? "`sheaf sheets` lists them" : nearest);
    return false;
  }
  return true;
}

}  // namespace sheaf
