#include "driver/class_week.h"

#include <fmt/format.h>

#include <algorithm>

namespace sheaf {

namespace {

std::string group_of_learner(const ClassFile& class_file,
                             const LearnerCode& code) {
  for (const LearnerEntry& learner : class_file.learners) {
    if (learner.code.value == code) return learner.group.value;
  }
  return {};
}

std::string name_of_lesson(const AnalyzedLesson& lesson) {
  std::string names;
  for (const LessonPattern& pattern : lesson.patterns) {
    names += (names.empty() ? "" : "; ") + pattern.name;
  }
  const std::string& title = lesson.lesson->title.value;
  return title.empty() ? names : fmt::format("{}: {}", title, names);
}

}  // namespace

std::vector<GroupWeek> group_weeks(Shaper& shaper, const ClassJob& job,
                                   Diagnostics& diagnostics) {
  std::vector<GroupWeek> weeks;
  std::vector<std::string> lessons;  // the file of each
  PagesOfRun all;
  for (const LearnerJob& learner : job.learners) {
    const std::string group = group_of_learner(job.class_file, learner.code);
    // Who has other pages of it is in the group all the same.
    const std::string& file = learner.lesson.lesson->file->name();
    std::size_t at = 0;
    while (at < weeks.size() &&
           (weeks[at].name != group || lessons[at] != file)) {
      ++at;
    }
    const Packet packet = compose_learners_packet(shaper, learner, diagnostics);
    const std::size_t pages = packet.learner.pages.size();
    if (!all.add(learner, pages, diagnostics)) return weeks;
    if (at == weeks.size()) {
      weeks.push_back({.name = group,
                       .lesson = name_of_lesson(learner.lesson),
                       .least_pages = pages,
                       .sheets = packet.sheets,
                       .days = packet.days});
      for (const LessonPattern& pattern : learner.lesson.patterns) {
        weeks.back().patterns.push_back(pattern.id);
      }
      lessons.push_back(file);
    }
    GroupWeek& week = weeks[at];
    ++week.learners;
    week.codes.push_back(learner.code);
    week.least_pages = std::min(week.least_pages, pages);
    week.most_pages = std::max(week.most_pages, pages);
  }
  return weeks;
}

}  // namespace sheaf
