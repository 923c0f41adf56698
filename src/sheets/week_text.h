#pragma once

#include <string>

#include "sheets/sheet.h"

namespace sheaf {

/// How a step of the week is called in the plan and the script: the title of
/// its sheet, else what is done without one.
std::string step_title(const SheetInput& in, const DayStep& step);
/// What of the sheet it goes through, "sentences 1 to 2"; may be empty.
std::string step_share(const SheetInput& in, const DayStep& step);

/// "Touch and blend, first half (4 minutes)".
std::string step_heading(const SheetInput& in, const DayStep& step);
/// The days of the week that have work by ear, without letters: the first so
/// many. It comes before the warm-up, and its minutes are not among the day's.
int days_by_ear(const SheetInput& in);
inline constexpr int kMinutesByEar = 2;

/// "Day 2: 25 minutes"; with work by ear "Day 2: by ear (2 minutes), then 25
/// minutes".
std::string day_heading(int number, const Day& day, bool by_ear);

}  // namespace sheaf
