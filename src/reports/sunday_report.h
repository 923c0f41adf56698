#pragma once

#include <string>
#include <vector>

#include "reports/report_document.h"

namespace sheaf {

/// What one group needs for its week, in words.
struct SundayGroup {
  std::string name;
  std::string lesson;
  std::string copies;  ///< "5"
  std::string pages;   ///< of each: "12", "11 to 13"
  std::string cut;     ///< "day 1: Sort the words"; empty: nothing
  /// For each day what is new on it; empty where all of it was there before.
  std::vector<std::string> days;
};

/// One page for the evening before a week: how often to print what, what to
/// cut out before which day, and what comes new to each group on each day. No
/// learner's code stands on it.
void add_sunday_report(const ReportMaker& maker, std::string title,
                       std::size_t teacher_pages,
                       const std::vector<SundayGroup>& groups);

}  // namespace sheaf
