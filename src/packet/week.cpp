#include "packet/week.h"

#include <algorithm>
#include <vector>

namespace sheaf {

namespace {

// One day after another, as full as a fair share asks for.
void give_fair_shares(std::span<PlannedSheet> sheets, int days, int minutes) {
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

int longest_day(std::span<const PlannedSheet> sheets) {
  int longest = 0, used = 0, day = 0;
  for (const PlannedSheet& sheet : sheets) {
    used = sheet.day == day ? used + sheet.minutes : sheet.minutes;
    day = sheet.day;
    longest = std::max(longest, used);
  }
  return longest;
}

// One day after another up to a limit; false where the days do not suffice.
bool fill_days(std::span<PlannedSheet> sheets, int days, int limit) {
  int day = 1, used = 0;
  for (PlannedSheet& sheet : sheets) {
    if (used > 0 && used + sheet.minutes > limit) {
      if (++day > days) return false;
      used = 0;
    }
    sheet.day = day;
    used += sheet.minutes;
  }
  return true;
}

}  // namespace

void plan_days(std::span<PlannedSheet> sheets, int days, int minutes) {
  give_fair_shares(sheets, days, minutes);
  // Fair shares may leave too much for the last day. Then fuller days before
  // it keep all of them within the lesson, or the longest as short as can be.
  const int longest = longest_day(sheets);
  if (longest <= minutes) return;
  std::vector<PlannedSheet> fuller(sheets.begin(), sheets.end());
  for (int limit = minutes; limit < longest; ++limit) {
    if (!fill_days(fuller, days, limit)) continue;
    if (longest_day(fuller) < longest)
      std::ranges::copy(fuller, sheets.begin());
    return;
  }
}

}  // namespace sheaf
