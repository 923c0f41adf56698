#include "packet/page_limit.h"

#include <fmt/format.h>

#include "analysis/lesson_size.h"

namespace sheaf {

namespace {

// Whichever of the two is further beyond a large one that people use is to
// blame. (Layouts of our own have up to twenty sheets.)
constexpr std::size_t kManySheets = 40;
constexpr std::size_t kManyWordsOfLesson = 800;

}  // namespace

void report_many_pages(const Bindery& b, const PlannedSheet& sheet,
                       std::size_t sheets, Diagnostics& diagnostics) {
  const LessonSize size = size_of(b.lesson);
  const std::string pages = fmt::format(
      "a packet has up to {} pages, and there are more with the "
      "sheet `{}`",
      kMostPacketPages, sheet.kind->name);
  if (sheets * kManyWordsOfLesson > size.words * kManySheets) {
    diagnostics.error(diagnostic::too_many, asked_for(b, sheet),
                      fmt::format("{}, number {} in the packet", pages, sheets),
                      "leave out sheets, or make two layouts of this one");
    return;
  }
  const bool known = static_cast<bool>(size.longest);
  Diagnostic& message = diagnostics.error(
      diagnostic::too_many,
      known ? size.longest : b.lesson.patterns.front().written.span,
      fmt::format("{}; the lesson has {} words in all", pages, size.words),
      "split the lesson into several, or leave out sheets");
  if (sheet.span) {
    message.remarks.push_back({sheet.span, "the sheet is asked for here"});
  }
}

}  // namespace sheaf
