#pragma once

#include <optional>
#include <string>

#include "cli/command_line.h"
#include "driver/workspace.h"
#include "planning/word_search.h"

namespace sheaf {

/// What the planning verbs read from their command line. Each prints what is
/// wrong to standard error and gives nothing then.

/// The patterns that a name means: one, or several where it is a contrast ("sh
/// and ch"). Where it is not clear, those that could be meant are listed.
std::optional<std::vector<PatternId>> pattern_arguments(const std::string& name,
                                                        const Phonics& phonics);
/// How an accent says and counts sounds; American without one.
std::optional<Conventions> accent_argument(const std::string& accent);
/// "2" or "1-3".
std::optional<Range> range_argument(const std::string& text,
                                    std::string_view option);
/// What was taught at the step that is asked for; nothing known without one.
std::optional<Taught> taught_argument(Workspace& workspace,
                                      const CommandLine::Planning& planning);

}  // namespace sheaf
