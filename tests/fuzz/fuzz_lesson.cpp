#include "fuzz_checks.h"
#include "input/lesson.h"

namespace {

using sheaf::Diagnostics;
using sheaf::Lesson;
using sheaf::SourceFile;

// A lesson without errors must keep what its readers may count on.
void read_and_check(const SourceFile& file, Diagnostics& diagnostics) {
  using namespace sheaf::fuzz;
  const Lesson lesson = sheaf::read_lesson(file, diagnostics);
  if (diagnostics.has_errors()) return;
  require(!lesson.patterns.empty() || lesson.placement.given());
  require(lesson.patterns.size() <= 4);
  for (const auto* part :
       {&lesson.placement.part_one, &lesson.placement.part_two}) {
    int before = 0;
    for (const sheaf::PlacementStep& step : *part) {
      require(step.number.value > before && !step.words.empty());
      before = step.number.value;
      for (const auto& word : step.words) check_span(file, word.span);
    }
  }
  require(lesson.words.size() <= 2000);
  for (const sheaf::LessonWord& word : lesson.words) {
    check_span(file, word.spelling.span);
    require(!word.spelling.value.empty());
    for (const auto& grapheme : word.graphemes) {
      check_span(file, grapheme.span);
      require(!grapheme.value.empty());
    }
  }
  for (const sheaf::LessonLine& line : lesson.sentences) {
    check_text(file, line);
    require(!line.text().empty());
    require(line.text().find('\n') == std::string::npos);
  }
  require(lesson.days.value >= 1 && lesson.days.value <= 7);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  return sheaf::fuzz::run(data, size, read_and_check);
}
