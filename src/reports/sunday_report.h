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

/// The review cards of a group that move before the week, by the names of
/// their patterns; empty: none.
struct SundayCards {
  std::string name;
  std::string in, out;
};

/// One page for the evening before a week: how often to print what, what to
/// cut out before which day, what comes new to each group on each day, and
/// which review cards go in and out. It is the teacher's: where a card does not
/// move for all of a group, codes say for whom; no other codes stand on it.
void add_sunday_report(const ReportMaker& maker, std::string title,
                       std::size_t teacher_pages,
                       const std::vector<SundayGroup>& groups,
                       const std::vector<SundayCards>& cards);

}  // namespace sheaf
