#pragma once

#include <string>
#include <vector>

#include "driver/class_job.h"

namespace sheaf {

/// What learners of one group with one lesson need for a week.
struct GroupWeek {
  std::string name;  ///< of the group in the class file; empty: none
  std::string
      lesson;  ///< its title, if it has one, and the names of its patterns
  std::size_t learners = 0;
  std::vector<LearnerCode> codes;   ///< theirs, in the order of the class
  std::vector<PatternId> patterns;  ///< the lesson's
  /// Pages of one packet: of the shortest and of the longest, where layouts
  /// differ.
  std::size_t least_pages = 0, most_pages = 0;
  /// The sheets of the first learner, by day.
  std::vector<Packet::Sheet> sheets;
  int days = 0;
};

/// The groups of a class in the order of their first learners. Packets are
/// composed for it; what is wrong with one is reported.
std::vector<GroupWeek> group_weeks(Shaper& shaper, const ClassJob& job,
                                   Diagnostics& diagnostics);

}  // namespace sheaf
