#pragma once

#include <span>

#include "input/record_file.h"

namespace sheaf {

/// Days since the first of January of the year 1, so that dates can be counted
/// with. Gregorian throughout.
int day_number(const Date& date);

inline int days_between(const Date& from, const Date& to) {
  return day_number(to) - day_number(from);
}

/// The day so many days later; of four-digit years.
Date day_after(const Date& date, int days);

/// Weeks without school, each named by any of its days, that lie wholly between
/// two days: Monday to Sunday, the weeks of the two days themselves left out.
int weeks_off_between(std::span<const Date> no_school, const Date& from,
                      const Date& to);

}  // namespace sheaf
