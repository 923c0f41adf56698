#include "sheets/week_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "sheets/ear_work.h"
#include "sheets/word_parts.h"

namespace sheaf {

std::string step_title(const SheetInput& in, const DayStep& step) {
  if (step.sheet != DayStep::kNoSheet) {
    return std::string(in.packet[step.sheet].kind->title);
  }
  return step.part == DayPart::warm_up ? "Yesterday’s words again"
                                       : "Finish, or read to a partner";
}

std::string step_share(const SheetInput& in, const DayStep& step) {
  if (step.sheet == DayStep::kNoSheet) return "";
  const PlannedSheet& sheet = in.packet[step.sheet];
  if (sheet.kind->share == nullptr) return "";
  return sheet.kind->share(input_of(in, sheet), step);
}

std::string step_heading(const SheetInput& in, const DayStep& step) {
  std::string text = step_title(in, step);
  if (const std::string share = step_share(in, step); !share.empty()) {
    // A question is not followed by a comma.
    text += (text.ends_with('?') ? " " : ", ") + share;
  }
  if (step.minutes > 0) {
    text += fmt::format(" ({})", counted(step.minutes, "minute", "minutes"));
  }
  return text;
}

int days_by_ear(const SheetInput& in) {
  if (in.ear_items == 0 || in.lesson.patterns.empty()) return 0;
  const std::vector<EarDay>& days = ear_days(in, in.ear_items);
  const auto none = std::ranges::find_if(
      days, [](const EarDay& day) { return day.together.empty(); });
  return static_cast<int>(none - days.begin());
}

std::string day_heading(int number, const Day& day, bool by_ear) {
  const std::string ear =
      by_ear ? fmt::format("by ear ({}), then ",
                           counted(kMinutesByEar, "minute", "minutes"))
             : std::string();
  return fmt::format("Day {}: {}{}", number, ear,
                     counted(day.minutes(), "minute", "minutes"));
}

}  // namespace sheaf
