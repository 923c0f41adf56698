#pragma once

#include <span>
#include <vector>

#include "marking/calendar.h"
#include "marking/progress.h"

namespace sheaf {

/// The weeks, Monday to Sunday, in which anything was written down: holidays
/// are not among them.
class SchoolWeeks {
 public:
  explicit SchoolWeeks(std::span<const Date> days);

  std::size_t size() const { return weeks_.size(); }
  /// Its Monday.
  Date begins(std::size_t week) const;
  /// The week that a day is in, or `size()` where it is in none.
  std::size_t of(const Date& day) const;

 private:
  std::vector<int> weeks_;  // in order, counted from the year 1
};

}  // namespace sheaf
