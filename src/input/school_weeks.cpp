#include "input/school_weeks.h"

#include <fmt/format.h>

#include "base/options.h"
#include "base/utf8.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostGaps = 8;
constexpr int kLongestGap = 52;
constexpr std::size_t kMostWeeksOff = 60;

}  // namespace

std::vector<int> read_review_weeks(const Field& field, Diagnostics& d) {
  std::vector<int> all;
  for (const PlacedWord& written : read_names(field, kMostGaps, d)) {
    const auto weeks = read_count(written.value);
    const int last = all.empty() ? 0 : all.back();
    if (weeks && *weeks > last && *weeks <= kLongestGap) {
      all.push_back(*weeks);
      continue;
    }
    d.error(
        diagnostic::wrong_value, written.span,
        fmt::format(
            "{} is not a whole number of weeks{}", quoted(written.value),
            weeks ? fmt::format(" from {} to {}", last + 1, kLongestGap) : ""),
        "write gaps that grow, as in `review-weeks: 1, 2, 4, 8`");
    break;
  }
  return all;
}

std::vector<Date> read_no_school(const Field& field, Diagnostics& d) {
  std::vector<Date> days;
  for (const PlacedWord& written : read_names(field, kMostWeeksOff, d)) {
    if (const auto day = read_date(written.value)) {
      days.push_back(*day);
      continue;
    }
    d.error(diagnostic::wrong_value, written.span,
            fmt::format("{} is not a date", quoted(written.value)),
            "write a day of each week without school, as in `no-school: "
            "2026-10-26, 2026-12-21`");
  }
  return days;
}

}  // namespace sheaf
