#include "packet/week.h"

#include <algorithm>

namespace sheaf {

void plan_days(std::span<PlannedSheet> sheets, int days, int minutes) {
  int left = 0;
  for (const PlannedSheet& sheet : sheets) left += sheet.minutes;
  int day = 1;
  int used = 0;
  int fair = days > 0 ? (left + days - 1) / days : left;
  for (PlannedSheet& sheet : sheets) {
    // A sheet goes to the next day where today would become fuller than its
    // fair share by more than half the sheet, or than the lesson is long.
    const int after = used + sheet.minutes;
    const bool full = after - fair > sheet.minutes / 2 || after > minutes;
    if (used > 0 && full && day < days) {
      ++day;
      used = 0;
      fair = (left + days - day) / std::max(1, days - day + 1);
    }
    sheet.day = day;
    used += sheet.minutes;
    left -= sheet.minutes;
  }
}

}  // namespace sheaf
