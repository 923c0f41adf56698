#pragma once

#include <vector>

#include "cli/command_line.h"
#include "planning/word_search.h"

namespace sheaf {

/// `sheaf find PATTERN --sentences` and `--passages`: prints what can be read
/// at the step, then, where that is too little, what nearly can. Returns the
/// exit code.
int print_found_sentences(const SearchGround& source,
                          const std::vector<PatternId>& patterns,
                          const CommandLine& line,
                          const Diagnostics& diagnostics);
int print_found_passages(const SearchGround& source,
                         const std::vector<PatternId>& patterns,
                         const CommandLine& line);

}  // namespace sheaf
