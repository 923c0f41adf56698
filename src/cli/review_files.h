#pragma once

#include <map>
#include <string>
#include <vector>

#include "cli/command_line.h"
#include "driver/check_lessons.h"
#include "files/path.h"
#include "input/class_file.h"
#include "marking/calendar.h"
#include "marking/review_plan.h"

namespace sheaf {

/// Commands that come after a plan, as lines that can be copied into the shell
/// from which `review` was called, and work there.
class ReviewCommands {
 public:
  /// `folder` is where the files of the plan stand. `line` must outlive it.
  ReviewCommands(const CommandLine& line, FilePath folder, const Date& week)
      : line_(line),
        folder_(std::move(folder)),
        last_day_(day_after(monday_of(week), 4)) {}

  /// Prints the packets of a class file that stands in the plan's folder. What
  /// it names stands beside the teacher's own class file.
  std::string build_class(const FilePath& plan) const;
  std::string build_lesson(const FilePath& lesson) const;
  /// The form for a check, for the Friday of the week; empty where its record
  /// could not name it.
  std::string record(const FilePath& lesson, const FilePath& pupils) const;

 private:
  const CommandLine& line_;
  FilePath folder_;
  Date last_day_;
};

/// The files of a plan for a week: the class with review words, the checks,
/// and the class of those who write them where not everyone has the same.
class ReviewFiles {
 public:
  /// Both must outlive it.
  ReviewFiles(const CommandLine& line, const ClassFile& pupils,
              const Date& week);

  /// Writes all of them or none. Throws MachineError.
  void write(const std::vector<LearnerReview>& reviews,
             const std::vector<CheckLesson>& checks);
  void print_what_to_do(const std::vector<CheckLesson>& checks,
                        const PatternCatalogue& catalogue) const;

 private:
  void print_check(const CheckLesson& check,
                   const PatternCatalogue& catalogue) const;
  bool have_class(const std::vector<CheckLesson>& checks) const;
  std::string about(std::string_view what) const;
  FilePath path_of(const CheckLesson& check) const;
  FilePath plan() const;
  FilePath class_of_checks_path() const;

  const CommandLine& line_;
  const ClassFile& pupils_;
  FilePath class_path_, folder_;
  ReviewCommands commands_;
  std::string class_name_;
  std::map<LearnerCode, std::vector<std::string>> words_;
};

}  // namespace sheaf
