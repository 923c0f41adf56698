#include "marking/calendar.h"

#include <array>
#include <set>

namespace sheaf {

int day_number(const Date& date) {
  constexpr std::array kBefore = {0,   31,  59,  90,  120, 151,
                                  181, 212, 243, 273, 304, 334};
  const int years = date.year - 1;
  const bool leap =
      date.year % 4 == 0 && (date.year % 100 != 0 || date.year % 400 == 0);
  const auto month = static_cast<std::size_t>(date.month - 1) % kBefore.size();
  return years * 365 + years / 4 - years / 100 + years / 400 + kBefore[month] +
         (leap && date.month > 2 ? 1 : 0) + date.day - 1;
}

Date day_after(const Date& date, int days) {
  const int wanted = day_number(date) + days;
  // No year is shorter than this, so the guess is never too late.
  Date day{1 + wanted / 366, 1, 1};
  while (day_number({day.year + 1, 1, 1}) <= wanted) ++day.year;
  while (day.month < 12 && day_number({day.year, day.month + 1, 1}) <= wanted) {
    ++day.month;
  }
  day.day += wanted - day_number(day);
  return day;
}

// The first day of the year 1 was a Monday.
Date monday_of(const Date& day) {
  return day_after(day, -(day_number(day) % 7));
}

Date first_school_day(std::span<const Date> no_school, const Date& day) {
  std::set<int> off;
  for (const Date& one : no_school) off.insert(day_number(one) / 7);
  int week = day_number(day) / 7;
  if (!off.contains(week)) return day;
  while (off.contains(week)) ++week;
  return day_after(day, week * 7 - day_number(day));
}

}  // namespace sheaf
