#pragma once

#include <optional>
#include <vector>

#include "input/fields.h"
#include "input/record_file.h"

namespace sheaf {

/// After how many weeks of school something comes back, growing: 1, 2, 4, 8.
/// What is no such number is reported; those before it are kept.
std::vector<int> read_review_weeks(const Field& field,
                                   Diagnostics& diagnostics);

/// From the first to the last day of a school year.
struct SchoolYear {
  Date first, last;
  Span span;

  bool has(const Date& day) const { return first <= day && day <= last; }
};

/// Two days with `to` between them. Nothing, and reported, where it is not that
/// or ends before it begins.
std::optional<SchoolYear> read_school_year(const Field& field,
                                           Diagnostics& diagnostics);

/// Weeks without school, each named by any of its days.
std::vector<Date> read_no_school(const Field& field, Diagnostics& diagnostics);

}  // namespace sheaf
