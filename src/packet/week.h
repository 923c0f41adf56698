#pragma once

#include <span>

#include "sheets/sheet.h"

namespace sheaf {

/// Gives the sheets of a packet their days and minutes.
///
/// New steps are spread over the days in the layout's order, what is daily
/// comes back on each of its days, and the check has the last day. Each day
/// takes exactly `minutes`: steps are a little shorter or longer than usual
/// for that, and what is left over is a step without a sheet. Sheets that the
/// days have no room for keep day 0 and stand in `Week::beyond`.
///
/// Sheets with day 0 are not planned. Sets `day` and `last_day` of the others.
Week plan_days(std::span<PlannedSheet> sheets, int days, int minutes);

}  // namespace sheaf
