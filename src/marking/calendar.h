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

/// The Monday of a day's week.
Date monday_of(const Date& day);

/// The first day of school from a day on: the day itself, or the Monday after
/// the weeks without school that it lies in, each named by any of its days.
Date first_school_day(std::span<const Date> no_school, const Date& day);

}  // namespace sheaf
