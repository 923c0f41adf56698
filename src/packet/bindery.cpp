#include "packet/bindery.h"

#include <fmt/format.h>

namespace sheaf {

SheetInput sheet_input(const Bindery& b, const OptionValues& options,
                       std::span<const PlannedSheet> packet) {
  return {.lesson = b.lesson,
          .options = options,
          .pictures = b.pictures,
          .memory = b.memory,
          .packet = packet,
          .learners = b.whom.learners,
          .has_script = b.has_script,
          .week = &b.week,
          .plain_voice = b.style.plain_voice,
          .ear_items = b.ear_items,
          .cards = b.whom.cards};
}

FrameText frame_text(const Bindery& b, const PlannedSheet& sheet,
                     std::span<const PlannedSheet> packet) {
  const AnalyzedLesson& lesson = b.lesson;
  FrameText text;
  text.title = lesson.lesson->title.value;
  text.sheet = sheet.kind->title;
  text.direction = sheet.kind->direction;
  text.action = sheet.kind->action;
  if (sheet.kind->other_direction != nullptr) {
    const Direction other =
        sheet.kind->other_direction(sheet_input(b, sheet.options, packet));
    if (!other.text.empty()) {
      text.direction = other.text;
      text.action = other.action;
    }
  }
  if (b.style.plain_voice) text.action = Action::none;
  text.code = lesson.code;
  text.for_teacher = sheet.kind->for_teacher;
  if (text.for_teacher) return text;
  // A check of where to begin belongs to no week.
  if (sheet.day > 0 && !lesson.lesson->placement.given()) {
    text.day = sheet.last_day > sheet.day
                   ? fmt::format("Days {} to {}", sheet.day, sheet.last_day)
                   : fmt::format("Day {}", sheet.day);
  }
  if (b.whom.learners.size() == 1) text.learner = b.whom.learners.front();
  return text;
}

Span asked_for(const Bindery& b, const PlannedSheet& sheet) {
  return sheet.span ? sheet.span : b.lesson.patterns.front().written.span;
}

}  // namespace sheaf
