#pragma once

#include "cli/command_line.h"
#include "driver/requests.h"

namespace sheaf {

/// What a command line asks of the driver.
LessonRequest lesson_request(const CommandLine& line);
/// Its first argument, if any, is the lesson of those who have none.
ClassRequest class_request(const CommandLine& line);
MarkingRequest marking_request(const CommandLine& line);

/// The learners that `--learner` gives, all of them codes.
std::vector<LearnerCode> codes_given(const std::vector<std::string>& texts);

/// Whether there is a sheet of each name that `--only` gives; if not, says so
/// on standard error.
bool known_sheets(const CommandLine& line);

}  // namespace sheaf
