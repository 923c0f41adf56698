#pragma once

#include "input/record_file.h"

namespace sheaf {

/// Days since the first of January of the year 1, so that dates can be counted
/// with. Gregorian throughout.
int day_number(const Date& date);

inline int days_between(const Date& from, const Date& to) {
  return day_number(to) - day_number(from);
}

}  // namespace sheaf
