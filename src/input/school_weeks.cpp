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
            "{} is not a whole number of weeks{}", as_written(written.value),
            weeks ? fmt::format(" from {} to {}", last + 1, kLongestGap) : ""),
        "write gaps that grow, as in `review-weeks: 1, 2, 4, 8`");
    break;
  }
  return all;
}

std::optional<SchoolYear> read_school_year(const Field& field, Diagnostics& d) {
  constexpr std::string_view kBetween = " to ";
  const PlacedWord written = read_short_text(field, d);
  if (!written.given()) return std::nullopt;
  const std::string& text = written.value;
  const std::size_t between = text.find(kBetween);
  const auto first = read_date(text.substr(0, between));
  const auto last = between == std::string::npos
                        ? std::nullopt
                        : read_date(text.substr(between + kBetween.size()));
  if (first && last && *first < *last) {
    return SchoolYear{*first, *last, written.span};
  }
  d.error(diagnostic::wrong_value, written.span,
          first && last
              ? fmt::format("{} ends before it begins", as_written(text))
              : fmt::format("{} is not two days with `to` between",
                            as_written(text)),
          "write the first and the last day of school, as in `school-year: "
          "2026-09-01 to 2027-07-16`");
  return std::nullopt;
}

std::vector<Date> read_no_school(const Field& field, Diagnostics& d) {
  std::vector<Date> days;
  for (const PlacedWord& written : read_names(field, kMostWeeksOff, d)) {
    if (const auto day = read_date(written.value)) {
      days.push_back(*day);
      continue;
    }
    d.error(diagnostic::wrong_value, written.span,
            fmt::format("{} is not a date", as_written(written.value)),
            "write a day of each week without school, as in `no-school: "
            "2026-10-26, 2026-12-21`");
  }
  return days;
}

}  // namespace sheaf
