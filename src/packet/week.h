#pragma once

#include <span>

#include "sheets/sheet.h"

namespace sheaf {

/// Gives each sheet its day: the order is kept, days fill up to about the same
/// number of minutes, and none is given more than `minutes` if the days
/// suffice for that.
void plan_days(std::span<PlannedSheet> sheets, int days, int minutes);

}  // namespace sheaf
